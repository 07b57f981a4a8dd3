package session

import "spotward/optics"

// Lessons that are signed off by themselves, or praised for what was not done.
const (
	LessonLeave = "leave"
	LessonSwing = "swing"
)

// Lessons returns the ladder, the easiest first.
func Lessons() []Lesson {
	return []Lesson{
		safeHands(), whichDot(), readTheDial(), leaveItAlone(), whichWay(), toTheRing(), middleOrInside(),
		roughBeforeFine(), downTheHole(), lockedHome(), somethingIsWrong(), whatLies(), whatLetGo(), primaryFirst(),
		wholeAlignment("whole", "a whole alignment", World{Seed: 25, Level: "usual"}),
		wholeAlignment("hard", "a whole alignment, hard", World{Seed: 11, Level: "hard"}),
	}
}

// quiz makes a question; its right answer is the one of that id.
func quiz(say, right, why string, options ...Option) Task {
	return Task{Kind: TaskQuestion, Say: say, Options: options, Right: right, Why: why}
}

func lessonWorld(level string, seed uint64) *World {
	return &World{Seed: seed, Level: level}
}

// saidOf reports whether somebody has said that a screw did so.
func saidOf(s State, is Says) bool {
	for _, ev := range s.Events() {
		if ev.Kind == KindScrew && ev.Is == is {
			return true
		}
	}
	return false
}

// saidAny reports whether anything was said to have gone wrong.
func saidAny(s State) bool {
	for _, ev := range s.Events() {
		if ev.Kind == KindScrew || ev.Kind == KindLaser {
			return true
		}
	}
	return false
}

// touched reports whether a screw or lock of mirror m was turned.
func touched(s State, m optics.Mirror) bool {
	for _, ev := range s.Events() {
		for _, t := range ev.Turned {
			if ev.Kind == KindTurned && t.Mirror == m {
				return true
			}
		}
	}
	return false
}

func wholeAlignment(id, title string, w World) Lesson {
	return Lesson{
		ID: id, Title: title,
		Aim:  "The whole of it, from the card to the tag.",
		Done: "Aligned, and it held in the swing; or rightly held back.",
		Tasks: []Task{{
			Kind: TaskWork, World: &w, From: StageReady, Say: "From the beginning to the tag, as at a real one.",
			Until: func(s State) bool { return s.Over },
			Met:   func(s State) bool { return s.Outcome == OutcomeAligned || s.HoldBack != "" },
		}},
	}
}
