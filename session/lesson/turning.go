package lesson

import (
	"fmt"
	"math/rand/v2"

	"spotward/optics"
	"spotward/session"
	"spotward/session/mirrors"
)

func leaveItAlone() Lesson {
	const slow = 150 // mm: f/8, where both spots alone can show that a scope is good
	check := func(level, say string, seeds []uint64, met func(s session.State) bool, why string) Task {
		return Task{
			Kind: TaskWork, World: lessonWorld(level, seeds[0]), Seeds: seeds, ApertureMM: slow, From: session.StageFirstLook, Say: say, Group: others,
			Until: func(s session.State) bool { return s.Verdict != "" },
			Met:   func(s session.State) bool { return s.Moves == 0 && met(s) },
			Seen:  []optics.Face{optics.FacePrimary, optics.FaceTarget}, Why: why,
		}
	}
	alone := func(say string) Task {
		return check(LevelGood, say, []uint64{1, 4, 7, 9, 12, 15}, func(s session.State) bool { return s.Verdict == session.VerdictLeave },
			"It was good enough: such a scope only gets worse by being worked at. A move that was not made is a good move.")
	}
	const which = " Take the first look, read both spots, and decide."
	return Lesson{
		ID: Leave, Title: "leave it alone",
		Aim:  "To look first, and to put the key back when nothing is wrong.",
		Done: "Every spot read as it is; the good scopes left alone, and the other one not.",
		Tasks: []Task{
			alone("Somebody says its images are poor." + which),
			alone("This one came back from a loan." + which),
			check(LevelReturn, "This one has stood in the shed all winter."+which, []uint64{5, 6, 7, 8, 10, 13}, func(s session.State) bool {
				switch s.Verdict {
				case session.VerdictPrimary, session.VerdictSecondary, session.VerdictBoth:
					return true
				}
				return false
			}, "Its return spot stood far from the hole: that one is worth the work."),
		},
	}
}

func whichWay() Lesson {
	way := func(turns float64) Task {
		return Task{
			Kind: TaskWay, World: lessonWorld(LevelWay, 1), Face: optics.FaceTarget, Turn: optics.Turn{Mirror: optics.Primary, Turns: turns},
			Why: "A small turn and a look tell more than any rule.",
		}
	}
	tasks := []Task{way(1. / 4), way(1. / 4), way(1. / 4), way(-1. / 4)}
	sayTheWay(tasks, []string{"A", "B", "C"}, wayFrom)
	return Lesson{
		ID: "way", Title: "which way does it go",
		Aim:   "To see what a screw does, and to trust that more than any rule.",
		Done:  "Each way within an hour on the dial, by the second try.",
		Tasks: tasks,
		vary: func(tasks []Task, r *rand.Rand) {
			letters := []string{"A", "B", "C"}
			r.Shuffle(len(letters), func(i, j int) { letters[i], letters[j] = letters[j], letters[i] })
			sayTheWay(tasks, letters, wayFrom+r.Uint64N(waySeeds))
		},
	}
}

// sayTheWay has each screw of the primary turned in the order of the letters,
// and the first of them once more.
func sayTheWay(tasks []Task, letters []string, seed uint64) {
	for i := range tasks {
		t := &tasks[i]
		t.World = lessonWorld(LevelWay, seed)
		t.Turn.Screw = letters[i%len(letters)]
		sense := "tightened"
		if t.Turn.Turns < 0 {
			sense = "eased"
		}
		t.Say = fmt.Sprintf("The return spot was home. Screw %s of the primary is %s by a quarter. Which way did the spot go? Say a clock position.", t.Turn.Screw, sense)
	}
}

// The seeds of the telescopes on which a way is seen.
const (
	wayFrom  = 1
	waySeeds = 6
)

func toTheRing() Lesson {
	task := func(say string, seeds ...uint64) Task {
		return Task{
			Kind: TaskWork, World: lessonWorld(LevelNear, seeds[0]), Seeds: seeds, From: session.StageSecondary, Verdict: session.VerdictSecondary, Looks: 12, Counted: true,
			Say:   say,
			Until: func(s session.State) bool { return s.Over || s.Stage().ID != session.StageSecondary },
			Met:   func(s session.State) bool { return !s.Over && s.Centred() },
			Seen:  []optics.Face{optics.FacePrimary},
			Why:   "Ease one, take up another. It never moves far, and nothing comes loose.",
		}
	}
	alone := task("Another scope, and now nobody says what to turn. Turn a pair, as in A -1/8 B 1/8; look, say where the spot is, and think. F2 or why shows what each screw does.", 3, 6, 8, 12, 14, 17, 20, 23)
	alone.Alone = true
	return Lesson{
		ID: "ring", Title: "two screws to the ring",
		Aim:  "To bring the spot to the ring with pairs of screws, and to leave all three snug.",
		Done: "The spot where it is wanted, twice, once without advice; all screws snug, nothing forced.", Clean: true,
		Tasks: []Task{
			task("Bring the spot to the ring. A move is told: Enter turns it as told, or say what you turn instead. Then look, and say where the spot is.", 11, 2, 5, 7, 9, 16, 21),
			alone,
		},
	}
}

func downTheHole() Lesson {
	task := func(say string, seeds ...uint64) Task {
		return Task{
			Kind: TaskWork, World: lessonWorld(LevelEased, seeds[0]), Seeds: seeds, From: session.StageHome, Verdict: session.VerdictPrimary, Looks: 12, Counted: true,
			Say: say,
			Until: func(s session.State) bool {
				return s.Over || s.Stage().ID != session.StageHome && s.Stage().ID != session.StageRough
			},
			Met:  func(s session.State) bool { return !s.Over && s.Home() },
			Seen: []optics.Face{optics.FaceTarget},
			Why:  "Home is a spot seen going in. A glow that is even all round is better still.",
		}
	}
	alone := task("Another scope, and now nobody says what to turn. Turn a screw, as in B 1/8; look, say where the return spot is, and think. F2 or why shows what each screw does.", 9)
	alone.Alone = true
	return Lesson{
		ID: "hole", Title: "down the hole",
		Aim:  "To bring the return spot home, and to see that it goes in.",
		Done: "The return spot where it is wanted, twice, once without advice; nothing forced.", Clean: true,
		Tasks: []Task{
			task("Bring the return spot down the hole with the primary's screws. A move is told: Enter turns it. Then say where the spot is.", 9, 2, 5, 8, 12, 16, 19),
			alone,
		},
	}
}

func lockedHome() Lesson {
	return Lesson{
		ID: "locks", Title: "locks that pull",
		Aim:  "To nip the locks, which is to tighten them little by little. The spot stays or comes home as they grip.",
		Done: "All locks snug and the return spot where it is wanted, nothing forced.", Clean: true,
		Tasks: []Task{{
			Kind: TaskWork, World: lessonWorld(LevelPulling, 9), Seeds: []uint64{9, 2, 5, 11, 14, 20, 26}, From: session.StageHome, Verdict: session.VerdictPrimary, Looks: 15, Counted: true,
			Alone: true,
			Say:   "Bring the return spot home: nobody says with which screw. Then nip the locks as told, with a look each round. Where nothing is told, turn each a little, as in lock A 1/8 lock B 1/8 lock C 1/8. What a lock pulls off, a screw brings back.",
			Until: func(s session.State) bool { return s.Over || s.Stage().ID == session.StageSwing },
			Met:   func(s session.State) bool { return !s.Over && s.Home() && s.Slack() <= mirrors.SlackTurns },
			Seen:  []optics.Face{optics.FaceTarget},
			Why:   "Each lock pulls in its own way. A little at each, and none drags the mirror far.",
		}},
	}
}
