package lesson

import (
	"slices"

	"spotward/optics"
	"spotward/session"
	"spotward/session/event"
	"spotward/session/words"
)

// Lessons that are signed off by themselves, or praised for what was not done.
const (
	Leave = "leave"
	Swing = "swing"
)

// All returns the lessons as they stand in the ladder, the easiest first.
func All() []Lesson { return slices.Clone(ladder) }

var ladder = []Lesson{
	safeHands(), whichDot(), readTheDial(), leaveItAlone(), whichWay(), toTheRing(), middleOrInside(),
	roughBeforeFine(), downTheHole(), lockedHome(), somethingIsWrong(), whatLies(), whatLetGo(), primaryFirst(),
	wholeAlignment("whole", "a whole alignment", event.World{Seed: 25, Level: "usual"}),
	wholeAlignment("hard", "a whole alignment, hard", event.World{Seed: 11, Level: "hard"}),
}

// quiz makes a question; its right answer is the one of that id.
func quiz(say, right, why string, options ...words.Option) Task {
	return Task{Kind: TaskQuestion, Say: say, Options: options, Right: right, Why: why}
}

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

func wholeAlignment(id, title string, w event.World) Lesson {
	return Lesson{
		ID: id, Title: title,
		Aim:  "The whole of it, from the card to the tag.",
		Done: "Aligned, and it held in the swing; or rightly held back.",
		Tasks: []Task{{
			Kind: TaskWork, World: &w, From: session.StageReady, Say: "From the beginning to the tag, as at a real one.",
			Until: func(s session.State) bool { return s.Over },
			Met:   func(s session.State) bool { return s.Outcome == session.OutcomeAligned || s.HoldBack != "" },
		}},
	}
}
