package session

import (
	"fmt"

	"spotward/session/event"
)

// Way is the number of the table of questions: which are asked, and in which
// order. It goes up by one with every change of that order. A journal says by
// which way it was answered, and only those from oldestWay on are folded, each as it
// was asked: what was asked otherwise was answered otherwise.
const (
	Way       = 5
	oldestWay = 3
)

// Folds reports whether a journal of that way can be folded.
func Folds(way int) bool { return way >= oldestWay && way <= Way }

// WayError says that a journal was answered by another table of questions.
type WayError struct{ Way int }

func (e *WayError) Error() string {
	if e.Way > Way {
		return fmt.Sprintf("this session is of a newer program (questions %d, here %d): go on with it there", e.Way, Way)
	}
	return fmt.Sprintf("this session is of an earlier program (questions %d, now %d): it can be looked at or dropped, not continued", e.Way, Way)
}

// named returns an event with the question that it answers in s.
func (s State) named(ev event.Event) event.Event {
	switch ev.Kind {
	case event.KindConfirm, event.KindChoice, event.KindReading, event.KindScrew, event.KindLaser, event.KindSkip:
		ask := s.Ask()
		ev.Stage, ev.Step = string(ask.Stage.ID), string(ask.Step)
	}
	return ev
}

// asks reports whether the question that an event says it answers is the one
// that stands.
func (s State) asks(ev event.Event) bool {
	if s.way.plan == nil {
		return false
	}
	ask := s.Ask()
	return string(ask.Stage.ID) == ev.Stage && string(ask.Step) == ev.Step
}
