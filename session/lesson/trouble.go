package lesson

import (
	"spotward/optics"
	"spotward/session"
	"spotward/session/event"
	"spotward/session/words"
)

func roughBeforeFine() Lesson {
	find := func(level string, say string, seeds ...uint64) Task {
		return Task{
			Kind: TaskWork, World: lessonWorld(level, seeds[0]), Seeds: seeds, From: session.StageRough, Verdict: session.VerdictPrimary, Looks: 12, Say: say,
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
			find(LevelMouth, "The return spot is not on the laser's face. Find it: look where you are asked to, and where there is nothing, say gone.", 1, 3, 6, 11, 14),
			find(LevelBore, "Here it is nearer, and harder to see: it goes down the drawtube beside the laser's face. Find it.", 1, 4, 7, 12, 15),
			find(LevelLost, "This one is far out. Find it, and bring it to the face.", 2, 5, 8, 13, 16),
		},
	}
}

// somethingIsWrong has each thing that a screw can say, and the laser, happen
// once. It is over with the first word about it, or when nobody says one.
func somethingIsWrong() Lesson {
	const words = "The words, each with a screw's letter, as in sticky C. Stuck: it will not turn. Free: it came loose. End: the end of its thread. Sticky: it goes in jerks. Stripped: no thread is left. Slipped: the key came out. Or: other way; dead laser. "
	const notice = "Turn what is told. Something is wrong: when you notice it, say what. " + words
	happens := func(level string, from session.StageID, verdict string, is event.Says, say, why string) Task {
		return Task{
			Kind: TaskWork, World: lessonWorld(level, wrongSeeds[0]), Seeds: wrongSeeds, From: from, Verdict: verdict, Looks: 2, Answer: true, Say: say, Why: why,
			Group: others, Unnamed: true,
			Until: func(s session.State) bool { return s.Over || saidAny(s) },
			Met:   func(s session.State) bool { return saidOf(s, is) },
		}
	}
	atHome := func(level string, is event.Says, say, why string) Task {
		return happens(level, session.StageHome, session.VerdictPrimary, is, say, why)
	}
	turned := func(t Task, turns float64) Task {
		t.Turn = optics.Turn{Mirror: optics.Primary, Screw: "B", Turns: turns}
		return t
	}
	clumsy := func(t Task) Task {
		t.Clumsy = true
		return t
	}
	dead := happens(LevelDying, session.StageSecondary, session.VerdictSecondary, "", notice,
		"It was a dead laser. A spot that is gone is somewhere else; a laser that is dark shows nothing anywhere.")
	dead.Seeds = []uint64{11, 3, 8, 20}
	short := turned(atHome(LevelShort, event.SaysEnd, "Screw B has been tightened again and again. Feel what it does now, and say what it is. "+words,
		"It was at its end. It turns no farther that way: the others do its share."), 1./2)
	short.Seeds = []uint64{9, 1, 3, 6, 8, 11, 13, 14} // where the end is that way
	short.World = lessonWorld(LevelShort, short.Seeds[0])
	dead.World = lessonWorld(LevelDying, 11)
	dead.Met = func(s session.State) bool { return s.Laser.Dead }
	return Lesson{
		ID: "wrong", Title: "something is wrong",
		Aim:  "To say what really happened, at once and in a word. Half of what goes wrong is never said.",
		Done: "Each thing said before it costs anything.",
		Tasks: []Task{
			atHome(LevelSeized, event.SaysStuck, notice, "It was stuck. No force: a screw that will not go is held by its lock, or by rust."),
			short,
			turned(atHome(LevelSlack, event.SaysFree, "Screw B was eased by half a turn. Feel what it does now, and say what it is. "+words,
				"It was free. A screw that holds nothing moves nothing. It is taken up until it grips again."), -1./2),
			atHome(LevelWorn, event.SaysStripped, notice, "It was stripped. No thread is left: the others must do without it, and the scope's keeper wants to know."),
			clumsy(atHome(LevelEased, event.SaysOtherWay, "Your hands are new to this. Turn what is told, and compare where the spot goes with where it was to go. Something is wrong: say what. "+words,
				"It went the other way. Everybody turns the wrong way now and then. Said at once it costs nothing.")),
			dead,
		},
	}
}

// wrongSeeds are of telescopes on which the same goes wrong.
var wrongSeeds = []uint64{9, 2, 4, 13, 18, 21}

func whatLies() Lesson {
	test := func(level string, seed uint64, right, why string, wrong map[string]string) Task {
		return Task{
			Kind: TaskQuestion, World: lessonWorld(level, seed), Seeds: []uint64{2, 3, 4, 5}, Face: optics.FacePrimary, Tests: []string{ActTurnLaser, ActReseat},
			Say: "A laser and a holder you do not know, off. Which of them lies? Say turn laser: it turns once round. Say re-seat: it is taken out and put back, never while it is on. F1 or help lists what else can be done.",
			Why: why, Right: right, Wrong: wrong, Group: others,
			Options: []words.Option{
				{ID: "none", Words: "neither: both can be trusted"},
				{ID: "laser", Words: "the laser: it points off at an angle"},
				{ID: "holder", Words: "the holder: no seat is the same"},
			},
		}
	}
	const still = "It hardly moved as it was turned. The spot of a laser that points off at an angle runs round in a circle."
	const back = "It came back to where it was: a holder that lies puts it in another place each time."
	const lies = "One of the two does lie. What moved as it was turned or put back is not the mirrors'."
	return Lesson{
		ID: "lies", Title: "what lies: laser, holder",
		Aim:  "To find out in a minute whether the laser can be trusted.",
		Done: "Each named rightly after both tests, and the card always before the laser.", Clean: true,
		Tasks: []Task{
			test(LevelTrue, 3, "none", "It hardly moves as it is turned, and comes back to where it was: go on with it.",
				map[string]string{"laser": still, "holder": back}),
			test(LevelCrooked, 2, "laser", "A circle as it is turned is the laser's own: its middle is where a true one would point. A small one can be allowed for; a wide one is for the bench.",
				map[string]string{"none": lies, "holder": back}),
			test(LevelSloppy, 2, "holder", "No circle, but another place each time it is put back: that is the seat. Wrap it, clamp it harder, or use another holder; no screw of a mirror helps.",
				map[string]string{"none": lies, "laser": still}),
		},
	}
}

func whatLetGo() Lesson {
	return Lesson{
		ID: Swing, Title: "the swing: what let go",
		Aim:  "To put right the mirror that has moved, and to touch no other.",
		Done: "The loose screw found and snug, the swing held, the primary not touched.",
		Tasks: []Task{{
			Kind: TaskWork, World: lessonWorld(LevelLoose, 6), Seeds: []uint64{6, 2, 5, 13, 16, 21, 24}, Carried: true, From: session.StageFirstLook, Looks: 20, Counted: true,
			Say:   "It was aligned, and has been carried since. Something has let go. Look at both spots as well as you can: the verdict weighs one against the other. Put right what let go and nothing else; then swing it.",
			Until: func(s session.State) bool { return s.Over || wrongMirror(s) || s.Stage().ID == session.StagePutAway },
			Met: func(s session.State) bool {
				return !s.Over && len(s.Skips) == 0 && s.HoldBack == "" && s.Left.Centred && s.Left.Home && !touched(s, optics.Primary)
			},
			Seen: []optics.Face{optics.FacePrimary, optics.FaceTarget},
			Why:  "A screw of the secondary had let go. Both spots move with that mirror. Once it is snug the return comes home by itself: the primary was never wrong.",
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
				Kind: TaskWork, World: lessonWorld(LevelLie, 1), Seeds: []uint64{1, 4, 6, 9, 15}, From: session.StageHome, Verdict: session.VerdictPrimary, Told: true, Looks: 12, Truth: true,
				Say: "The one before you looked at the primary and said: in the ring. So there is only the return spot to bring home. Do it.",
				Until: func(s session.State) bool {
					return s.Over || s.Stage().ID != session.StageHome && s.Stage().ID != session.StageRough
				},
				Met:  func(s session.State) bool { return !s.Over && s.Home() },
				Seen: []optics.Face{optics.FaceTarget},
				Why:  "It goes down the hole, and it looks perfect.",
			},
			quiz("The return spot is home and the spot on the primary is not in its ring. What is it worth?",
				"Home says only that the light came back the way it went. The primary was squared to a beam that misses its middle. Half of that miss is left as axis error.",
				answer{"worse", "nothing: it can be worse than before, and the primary is to be done again", ""},
				answer{"half", "half of it is right: one of two mirrors is done", "The primary was set by a beam that is itself wrong: none of it stays."},
				answer{"good", "good enough: home is what counts", "Home alone is what looked perfect just now, and it was worse."}),
			quiz("What keeps it from happening?",
				"First and last from the sky end. The spot on the primary comes first, because everything after it rests on it.",
				answer{"look", "your own look at the spot on the primary, before a screw of the primary is turned", ""},
				answer{"even", "the glow about the hole, if it is even all round", "The glow tells how well it is home. It says nothing of the primary's spot."},
				answer{"swing", "the swing, which would have shown it", "The swing shows what is loose. This one was tight, and wrong."}),
		},
	}
}
