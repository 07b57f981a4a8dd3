package lesson

import (
	"spotward/optics"
	"spotward/session"
	"spotward/session/event"
	"spotward/session/scope"
	"spotward/session/words"
)

func safeHands() Lesson {
	return Lesson{
		ID: "safe", Title: "safe hands",
		Aim:  "Nobody's eye in the beam, nothing dropped on the primary, and a scope that is safe whenever you leave it.",
		Done: "Every question right the first time, the card up before the laser, and the scope made safe.", Clean: true,
		Tasks: []Task{
			quiz("The laser is in the focuser, still off. What comes before it is switched on?", "card",
				"The beam can leave by the open end, just where one leans in.",
				words.Option{ID: "look", Words: "a look down the tube, whether it is free"},
				words.Option{ID: "card", Words: "a white card over the open end"},
				words.Option{ID: "turn", Words: "turning the laser once round"}),
			quiz("Red shows on the card, toward 4 o'clock. How do you look at the primary?", "past",
				"The card stays over the half where red shows. Past the other half, at a slant, the eye outside the rim.",
				words.Option{ID: "off", Words: "take the card off, then straight down the tube"},
				words.Option{ID: "same", Words: "lift the card at 4 o'clock and look in there"},
				words.Option{ID: "past", Words: "leave the card there, look in past 10 o'clock, eye outside the rim"}),
			quiz("Where does nobody stand while the laser is on?", "end",
				"Only adults are at the open end at all, and no one with an eye in line with it.",
				words.Option{ID: "end", Words: "in line with the open end"},
				words.Option{ID: "behind", Words: "behind the scope"},
				words.Option{ID: "beside", Words: "beside the focuser"}),
			quiz("The secondary has a bolt in the middle and three screws round it. What is turned?", "three",
				"The bolt holds the glass over the primary. All three screws eased at once leave nothing but the bolt.",
				words.Option{ID: "bolt", Words: "the bolt first, to give the screws room"},
				words.Option{ID: "three", Words: "the three screws, never all eased at once; the bolt never"},
				words.Option{ID: "all", Words: "all three eased first, then taken up evenly"}),
			quiz("The primary's locks are eased. How does the tube lie?", "up",
				"With the sky end down the mirror tips on its clips.",
				words.Option{ID: "down", Words: "sky end down, so that the screws can be reached"},
				words.Option{ID: "up", Words: "nose up 30 to 45 degrees, held"}),
			{
				Kind: TaskDeed, World: lessonWorld(LevelNear, 3), Face: optics.FacePrimary, Ends: ActLaserOn,
				Say: "Now do it. The laser is in its holder, off; you are about to see where its spot falls. Say what you do, one thing at a time. F1 or help lists what can be said.",
				Why: "The card first, then the laser: with nobody there to say so.",
			},
			{
				Kind: TaskWork, Say: "The locks are eased, the laser is on, and you are called away. Two minutes: say stop safely, and do what is asked.",
				World: lessonWorld(LevelEased, 3), From: session.StageHome, Verdict: session.VerdictPrimary,
				Until: func(s session.State) bool { return s.Over },
				Met:   func(s session.State) bool { return s.Outcome == session.OutcomeStopped },
				Why:   "Stop safely is there at every step. It costs nothing: the session can be taken up again.",
			},
		},
	}
}

func whichDot() Lesson {
	return Lesson{
		ID: "dot", Title: "which dot",
		Aim:  "To know the spot that counts from the ones that do not.",
		Done: "Every question right the first time.",
		Tasks: []Task{
			{
				Kind: TaskQuestion, World: lessonWorld(LevelReturn, 5), Face: optics.FaceSecondary,
				Say:     "Look at the secondary. Which of the two spots has been to the primary and back?",
				Options: []words.Option{{ID: "bright", Words: "the brighter one"}, {ID: "dim", Words: "the dimmer one"}}, Right: "dim",
				Why: "The outgoing spot is the brighter one. Each mirror takes a little.",
			},
			quiz("Two red dots on the primary. You move your head. One stays where it is on the glass, the other wanders. Which one is read?", "stays",
				"The true spot lies on the glass. What wanders is a reflection.",
				words.Option{ID: "wanders", Words: "the one that wanders"}, words.Option{ID: "stays", Words: "the one that stays"}),
			quiz("You are still not sure which is the return spot. What shows it?", "turn",
				"A sixteenth of a turn at a primary screw moves the return spot and no other.",
				words.Option{ID: "laser", Words: "the laser switched off and on"}, words.Option{ID: "turn", Words: "a sixteenth of a turn at one of the primary's screws"}),
			quiz("The spot on the primary flares bright as it comes to the ring, and is dim again inside it. Where is it best?", "inside",
				"The ring scatters the light. Bright is not home.",
				words.Option{ID: "bright", Words: "where it is brightest"}, words.Option{ID: "inside", Words: "inside, where it is dim again"}),
			quiz("The return spot has gone dim near the hole. Is it home?", "seen",
				"A weak laser is dim anywhere. Home is seen going in: faint rays are left, and one spot on the secondary.",
				words.Option{ID: "dim", Words: "yes: dim is home"}, words.Option{ID: "seen", Words: "only if it was seen going down the hole"}),
		},
	}
}

func readTheDial() Lesson {
	read := func(world *event.World, at scope.Clock, f optics.Face, say string) Task {
		return Task{
			Kind: TaskReading, World: world, FocuserAt: at, Face: f, Say: say,
			Why: "12 is straight up as you stand there, 6 is the ground, whatever way the scope is turned.",
		}
	}
	return Lesson{
		ID: "dial", Title: "reading the dial",
		Aim:  "To say where a spot is, so that another could put a finger on it.",
		Done: "Each place within half an hour and a quarter of the distance, at the second try at the latest.",
		Tasks: []Task{
			read(lessonWorld(LevelNear, 1), "", optics.FacePrimary, "From the sky end: where is the spot on the primary? Say a clock position, and how far from the ring's middle, in ring widths, as in 10:30 2r. One is the whole ring, across."),
			read(lessonWorld(LevelFar, 2), "", optics.FacePrimary, "Another scope, and the spot far out. Out there the mirror is the better ruler: say a clock position, and what part of the way from the middle to the mirror's edge, as in 2 1/3."),
			read(lessonWorld(LevelReturn, 12), "", optics.FaceTarget, "From behind: where is the return spot on the laser's face? Say a clock position, and how far from the hole: in mm, or in printed rings, as in 10 4 rings. The rings are 2 mm apart, the hole is 3 mm from its middle to its edge."),
			read(lessonWorld(LevelReturn, 13), "9:00", optics.FaceTarget, "This focuser lies on its side. From behind: where is the return spot? Straight up is still 12; rings and hole are as before: 2 mm apart, 3 mm to its edge."),
		},
	}
}

// seen shows the primary of a telescope beside a question.
func seen(w *event.World, t Task) Task {
	t.World, t.Face = w, optics.FacePrimary
	return t
}

func middleOrInside() Lesson {
	return Lesson{
		ID: "middle", Title: "middle or just inside",
		Aim:  "To know that the same picture has two answers.",
		Done: "Every question right the first time.",
		Tasks: []Task{
			seen(lessonWorld(LevelInside, 4), quiz("A slow mirror, f/8, for low power. The spot is inside the ring, half way to its edge. What now?", "on",
				"What is left on the primary costs half of itself. A slow mirror has room for that.",
				words.Option{ID: "middle", Words: "bring it to the very middle"}, words.Option{ID: "on", Words: "go on: inside will do"})),
			seen(lessonWorld(LevelInside, 4), quiz("A fast mirror, f/4.7. The same picture. What now?", "middle",
				"A fast mirror allows a fraction of a millimetre. Inside the ring is not enough.",
				words.Option{ID: "middle", Words: "bring it to the middle"}, words.Option{ID: "on", Words: "go on: inside will do"})),
			quiz("The spot is well off the ring, and the return spot is not home. Somebody wants to bring the return spot home first. Good?", "no",
				"It would look perfect, and could be worse than before. First the spot to the ring.",
				words.Option{ID: "yes", Words: "yes: that is the fine part"}, words.Option{ID: "no", Words: "no: first the spot to the ring"}),
		},
	}
}
