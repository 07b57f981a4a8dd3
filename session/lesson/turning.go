package lesson

import (
	"spotward/optics"
	"spotward/session"
)

func leaveItAlone() Lesson {
	check := func(seed uint64, say string) Task {
		return Task{
			Kind: TaskWork, World: lessonWorld(LevelGood, seed), From: session.StageFirstLook, Say: say,
			Until: func(s session.State) bool { return s.Verdict != "" },
			Met:   func(s session.State) bool { return s.Verdict == session.VerdictLeave && s.Moves == 0 },
			Why:   "A scope that is good enough only gets worse by being worked at. A move that was not made is a good move.",
		}
	}
	return Lesson{
		ID: Leave, Title: "leave it alone",
		Aim:  "To look first, and to put the key back when nothing is wrong.",
		Done: "Two good scopes left alone, twice of twice.",
		Tasks: []Task{
			check(1, "Somebody says its images are poor. Take the first look, and decide."),
			check(4, "The next one came back from a loan. Take the first look, and decide."),
		},
	}
}

func whichWay() Lesson {
	way := func(screw string, turns float64, say string) Task {
		return Task{
			Kind: TaskWay, World: lessonWorld(LevelWay, 1), Face: optics.FaceTarget, Turn: optics.Turn{Mirror: optics.Primary, Screw: screw, Turns: turns}, Say: say,
			Why: "A small turn and a look tell more than any rule.",
		}
	}
	return Lesson{
		ID: "way", Title: "which way does it go",
		Aim:  "To see what a screw does, and to trust that more than any rule.",
		Done: "Each way within an hour of the dial, at the second try at the latest.",
		Tasks: []Task{
			way("A", 1./4, "The return spot was home. Screw A of the primary is tightened by a quarter. Which way did the spot go? Say a clock position."),
			way("B", 1./4, "The same telescope, home again. Now B is tightened by a quarter. Which way?"),
			way("A", -1./4, "Home again. Now A is eased by a quarter. Which way?"),
		},
	}
}

func toTheRing() Lesson {
	return Lesson{
		ID: "ring", Title: "two screws to the ring",
		Aim:  "To bring the spot to the ring with pairs of screws, and to leave all three snug.",
		Done: "The spot where it is wanted, all screws snug, nothing forced.", Clean: true,
		Tasks: []Task{{
			Kind: TaskWork, World: lessonWorld(LevelNear, 11), From: session.StageSecondary, Verdict: session.VerdictSecondary, Looks: 15, Counted: true,
			Say:   "Bring the spot to the ring. A move is told: Enter turns it as told, or say what you turn instead. Then look, and say where the spot is.",
			Until: func(s session.State) bool { return s.Over || s.Stage().ID != session.StageSecondary },
			Met:   func(s session.State) bool { return !s.Over && s.Centred() },
			Seen:  []optics.Face{optics.FacePrimary},
			Why:   "Ease one, take up another. It never moves far, and nothing comes loose.",
		}},
	}
}

func downTheHole() Lesson {
	return Lesson{
		ID: "hole", Title: "down the hole",
		Aim:  "To bring the return spot home, and to see that it goes in.",
		Done: "The return spot where it is wanted, nothing forced.", Clean: true,
		Tasks: []Task{{
			Kind: TaskWork, World: lessonWorld(LevelEased, 9), From: session.StageHome, Verdict: session.VerdictPrimary, Looks: 15, Counted: true,
			Say: "Bring the return spot down the hole with the primary's screws. Say hide to do it without being told what to turn, show to be told again.",
			Until: func(s session.State) bool {
				return s.Over || s.Stage().ID != session.StageHome && s.Stage().ID != session.StageRough
			},
			Met:  func(s session.State) bool { return !s.Over && s.Home() },
			Seen: []optics.Face{optics.FaceTarget},
			Why:  "Home is seen going in; even all round is better still.",
		}},
	}
}

func lockedHome() Lesson {
	return Lesson{
		ID: "locks", Title: "locks that pull",
		Aim:  "To nip the locks so that the spot stays, or comes home as they bite.",
		Done: "All locks snug and the return spot where it is wanted, nothing forced.", Clean: true,
		Tasks: []Task{{
			Kind: TaskWork, World: lessonWorld(LevelPulling, 9), From: session.StageHome, Verdict: session.VerdictPrimary, Looks: 15, Counted: true,
			Say:   "Bring the return spot home, then nip the locks, a little each, round and round, with a look each round.",
			Until: func(s session.State) bool { return s.Over || s.Stage().ID == session.StageSwing },
			Met:   func(s session.State) bool { return !s.Over && s.Home() && s.Slack() <= session.SlackTurns },
			Seen:  []optics.Face{optics.FaceTarget},
			Why:   "Each lock pulls in its own way. A little at each, and none drags the mirror far.",
		}},
	}
}
