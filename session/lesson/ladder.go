package lesson

import (
	"math/rand/v2"
	"slices"

	"spotward/optics"
	"spotward/session"
	"spotward/session/event"
	"spotward/session/words"
)

// Lessons that are signed off by themselves, or praised for what was not done.
const (
	Exam  = "exam"
	Leave = "leave"
	Swing = "swing"
)

// All returns the lessons as they stand in the ladder, the easiest first.
func All() []Lesson { return slices.Clone(ladder) }

var ladder = []Lesson{
	theParts(), safeHands(), whichDot(), readTheDial(), leaveItAlone(), whichWay(), toTheRing(), middleOrInside(),
	roughBeforeFine(), downTheHole(), lockedHome(), somethingIsWrong(), whatLies(), whatLetGo(), primaryFirst(),
	wholeAlignment("whole", "a whole alignment", "usual", 25, 4, 12, 17, 33, 38),
	wholeAlignment("hard", "a whole alignment, hard", "hard", 11, 5, 14, 22, 29, 36),
	exam(),
}

// answer is one answer to a question, and why it is wrong; "" is the right one.
type answer struct{ id, words, wrong string }

// quiz makes a question; why is said with its right answer.
func quiz(say, why string, answers ...answer) Task {
	t := Task{Kind: TaskQuestion, Say: say, Why: why, Wrong: map[string]string{}, Group: quizzes}
	for _, a := range answers {
		t.Options = append(t.Options, words.Option{ID: a.id, Words: a.words})
		if a.wrong == "" {
			t.Right = a.id
		} else {
			t.Wrong[a.id] = a.wrong
		}
	}
	return t
}

// Groups of tasks that come in any order.
const (
	quizzes = 1 + iota
	others
)

func lessonWorld(level string, seed uint64) *event.World {
	return &event.World{Seed: seed, Level: level}
}

// saidOf reports whether somebody has said that a screw did so.
func saidOf(s session.State, is event.Says) bool {
	for _, ev := range s.Events() {
		if ev.Kind == event.KindScrew && ev.Is == is {
			return true
		}
	}
	return false
}

// saidAny reports whether anything was said to have gone wrong.
func saidAny(s session.State) bool {
	for _, ev := range s.Events() {
		if ev.Kind == event.KindScrew || ev.Kind == event.KindLaser {
			return true
		}
	}
	return false
}

// touched reports whether a screw or lock of mirror m was turned.
func touched(s session.State, m optics.Mirror) bool {
	for _, ev := range s.Events() {
		for _, t := range ev.Turned {
			if ev.Kind == event.KindTurned && t.Mirror == m {
				return true
			}
		}
	}
	return false
}

func wholeAlignment(id, title, level string, seeds ...uint64) Lesson {
	return Lesson{
		ID: id, Title: title,
		Aim:  "The whole of it, from the card to the tag.",
		Done: "Aligned, and it held in the swing; or rightly held back.",
		Tasks: []Task{{
			Kind: TaskWork, World: lessonWorld(level, seeds[0]), Seeds: seeds, From: session.StageReady, Say: "From the beginning to the tag, as at a real one.",
			Until: func(s session.State) bool { return s.Over },
			Met:   func(s session.State) bool { return s.Outcome == session.OutcomeAligned || s.HoldBack != "" },
			Seen:  []optics.Face{},
		}},
	}
}

// exam is what the ladder leads to: telescopes that nobody saw before, and
// nobody who says what to turn.
func exam() Lesson {
	scope := func(level string, seed uint64) Task {
		return Task{
			Kind: TaskWork, World: lessonWorld(level, seed), From: session.StageFirstLook, Looks: 45, Say: "A scope that nobody here has seen. Align it, to the tag. Nobody says what to turn.",
			Alone: true, Against: true,
			Until: func(s session.State) bool { return s.Over },
			Met:   func(s session.State) bool { return s.Outcome == session.OutcomeAligned },
			Seen:  []optics.Face{},
		}
	}
	return Lesson{
		ID: Exam, Title: "the exam",
		Aim:   "To align a scope that you have not seen before, by what you see.",
		Done:  "Three scopes aligned without advice, with at most a quarter more moves than the program would tell. Most spots read right.",
		Clean: true,
		Tasks: []Task{scope("easy", examFrom), scope("usual", examFrom+1), scope("usual", examFrom+2)},
		vary: func(tasks []Task, r *rand.Rand) {
			for i := range tasks {
				tasks[i].World = lessonWorld(tasks[i].World.Level, examFrom+r.Uint64N(examSeeds))
			}
		},
	}
}

// The exam's telescopes are none of the lessons'.
const (
	examFrom  = 1000
	examSeeds = 1_000_000
)
