package lesson

import (
	"spotward/optics"
	"spotward/session"
	"spotward/session/event"
	"spotward/session/words"
)

func roughBeforeFine() Lesson {
	find := func(level string, seed uint64, say string) Task {
		return Task{
			Kind: TaskWork, World: lessonWorld(level, seed), From: session.StageRough, Verdict: session.VerdictPrimary, Looks: 12, Say: say,
			Until: func(s session.State) bool { return s.Over || s.Stage().ID != session.StageRough },
			Met:   func(s session.State) bool { return !s.Over && s.OnTarget().Known },
			Seen:  []optics.Face{optics.FaceTarget},
			Why:   "From the sky end three places show it: the secondary, the drawtube's mouth, the card. From behind there is the face alone.",
		}
	}
	return Lesson{
		ID: "rough", Title: "rough before fine",
		Aim:  "To find a return spot that is nowhere on the laser's face, and to bring it there.",
		Done: "The return spot on the face, three times.",
		Tasks: []Task{
			find(LevelMouth, 1, "The return spot is not on the laser's face. Find it: look where you are asked to, and where there is nothing, say gone."),
			find(LevelBore, 1, "Here it is nearer, and harder to see: it goes down the drawtube beside the laser's face. Find it."),
			find(LevelLost, 2, "This one is far out. Find it, and bring it to the face."),
		},
	}
}

// somethingIsWrong has each thing that a screw can say, and the laser, happen
// once. It is over with the first word about it, or when nobody says one.
func somethingIsWrong() Lesson {
	const notice = "Turn what is told. Something is wrong: when you notice it, say what. "
	happens := func(level string, seed uint64, from session.StageID, verdict string, is event.Says, say, why string) Task {
		return Task{
			Kind: TaskWork, World: lessonWorld(level, seed), From: from, Verdict: verdict, Looks: 2, Answer: true, Say: say, Why: why,
			Until: func(s session.State) bool { return s.Over || saidAny(s) },
			Met:   func(s session.State) bool { return saidOf(s, is) },
		}
	}
	atHome := func(level string, is event.Says, say, why string) Task {
		return happens(level, 9, session.StageHome, session.VerdictPrimary, is, say, why)
	}
	turned := func(t Task, turns float64) Task {
		t.Turn = optics.Turn{Mirror: optics.Primary, Screw: "B", Turns: turns}
		return t
	}
	clumsy := func(t Task) Task {
		t.Clumsy = true
		return t
	}
	dead := happens(LevelDying, 11, session.StageSecondary, session.VerdictSecondary, "", notice+"What tells a weak laser from a dead one?",
		"A spot that is gone is somewhere else. A laser that is dark shows nothing anywhere.")
	dead.Met = func(s session.State) bool { return s.Laser.Dead }
	return Lesson{
		ID: "wrong", Title: "something is wrong",
		Aim:  "To say what really happened, at once and in a word. Half of what goes wrong is never said.",
		Done: "Each thing said before it costs anything.",
		Tasks: []Task{
			atHome(LevelSeized, event.SaysStuck, notice+"The words are: stuck, free, end, sticky, stripped, slipped, each with the screw's letter as in sticky C; other way; dead laser.", "No force: a screw that will not go is held by its lock, or is stuck."),
			turned(atHome(LevelShort, event.SaysEnd, "Screw B has been tightened and tightened, and the key has just stopped hard. Say what it is.",
				"At the end of its thread a screw has no more to give that way: the others share its part."), 1./2),
			turned(atHome(LevelSlack, event.SaysFree, "Screw B was eased by half a turn. Feel what it does, and say it.",
				"A screw that holds nothing moves nothing. It is taken up until it bites again."), -1./2),
			atHome(LevelWorn, event.SaysStripped, notice, "A screw that turns and turns has no thread left. The others must do without it, and the scope's keeper wants to know."),
			clumsy(atHome(LevelEased, event.SaysOtherWay, "Your hands are new to this. Turn what is told, and compare where the spot goes with where it was to go.",
				"Everybody turns the wrong way now and then. Said at once it costs nothing.")),
			dead,
		},
	}
}

func whatLies() Lesson {
	test := func(level string, seed uint64, right, say, why string) Task {
		return Task{
			Kind: TaskQuestion, World: lessonWorld(level, seed), Face: optics.FacePrimary, Tests: []string{ActTurnLaser, ActReseat},
			Say: say, Why: why, Right: right,
			Options: []words.Option{
				{ID: "none", Words: "neither: both can be trusted"},
				{ID: "laser", Words: "the laser: it points askew"},
				{ID: "holder", Words: "the holder: no seat is the same"},
			},
		}
	}
	return Lesson{
		ID: "lies", Title: "what lies: laser, holder",
		Aim:  "To find out in a minute whether anything that the laser shows means anything.",
		Done: "Each told for what it is, after both tests, and the card always before the laser.", Clean: true,
		Tasks: []Task{
			test(LevelTrue, 3, "none", "A laser and a holder you do not know, off. Which of them lies? Turn laser turns it once round, re-seat takes it out and back, never while it is on. F1 or help lists what else can be done.",
				"It hardly stirs as it is turned, and comes back to where it was: go on with it."),
			test(LevelCrooked, 2, "laser", "Another laser, off. Which lies, laser or holder?",
				"A circle as it is turned is the laser's own: its middle is where a true one would point. A small one can be allowed for; a wide one is for the bench."),
			test(LevelSloppy, 2, "holder", "Another holder, the laser off. Which lies?",
				"No circle, but another place each time it is put back: that is the seat. Wrap it, clamp it harder, or use another holder; no screw of a mirror helps."),
		},
	}
}

func whatLetGo() Lesson {
	return Lesson{
		ID: Swing, Title: "the swing: what let go",
		Aim:  "To put right the mirror that has moved, and to touch no other.",
		Done: "The loose screw found and snug, the swing held, the primary not touched.",
		Tasks: []Task{{
			Kind: TaskWork, World: lessonWorld(LevelLoose, 6), Carried: true, From: session.StageFirstLook, Looks: 20, Counted: true,
			Say:   "It was aligned, and has been carried since. Something has let go. Look at both spots as well as you can: the verdict weighs one against the other. Put right what let go and nothing else; then swing it.",
			Until: func(s session.State) bool { return s.Over || wrongMirror(s) || s.Stage().ID == session.StagePutAway },
			Met: func(s session.State) bool {
				return !s.Over && len(s.Skips) == 0 && s.HoldBack == "" && s.Left.Centred && s.Left.Home && !touched(s, optics.Primary)
			},
			Seen: []optics.Face{optics.FacePrimary, optics.FaceTarget},
			Why:  "A screw of the secondary had let go. Both spots move with that mirror, and once it is snug the return comes home by itself: the primary was never wrong.",
		}},
	}
}

// wrongMirror reports whether something else than the secondary is worked at: a
// verdict that was told begins with it.
func wrongMirror(s session.State) bool {
	switch s.Verdict {
	case "", session.VerdictSecondary, session.VerdictBoth:
		return touched(s, optics.Primary)
	}
	return true
}

func primaryFirst() Lesson {
	return Lesson{
		ID: "first", Title: "the primary done first",
		Aim:  "To know the alignment that looks perfect and is worse than before.",
		Done: "The return spot brought home, and the right thing said about it.",
		Tasks: []Task{
			{
				Kind: TaskWork, World: lessonWorld(LevelLie, 1), From: session.StageHome, Verdict: session.VerdictPrimary, Told: true, Looks: 12, Truth: true,
				Say: "The one before you looked at the primary and said: in the ring. So there is only the return spot to bring home. Do it.",
				Until: func(s session.State) bool {
					return s.Over || s.Stage().ID != session.StageHome && s.Stage().ID != session.StageRough
				},
				Met:  func(s session.State) bool { return !s.Over && s.Home() },
				Seen: []optics.Face{optics.FaceTarget},
				Why:  "It goes down the hole, and it looks perfect.",
			},
			quiz("The return spot is home and the spot on the primary is not in its ring. What is it worth?", "worse",
				"Home says only that the light came back the way it went. The primary was squared to a beam that does not come to its middle: half of that miss is left as axis error.",
				words.Option{ID: "half", Words: "half of it is right: one of two mirrors is done"},
				words.Option{ID: "worse", Words: "nothing: it can be worse than before, and the primary is to be done again"},
				words.Option{ID: "good", Words: "good enough: home is what counts"}),
			quiz("What keeps it from happening?", "look",
				"First and last from the sky end. The spot on the primary comes first, because everything after it rests on it.",
				words.Option{ID: "look", Words: "one's own look at the spot on the primary, before a screw of the primary is turned"},
				words.Option{ID: "even", Words: "the glow about the hole, if it is even all round"},
				words.Option{ID: "swing", Words: "the swing, which would have shown it"}),
		},
	}
}
