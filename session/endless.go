package session

import (
	"fmt"

	"spotward/optics"
	"spotward/session/event"
)

// After so many answers without an end it is offered to stop safely, and again
// after every so many more. Trainers' judgement of a night's patience.
const (
	endlessAnswers = 60
	endlessAgain   = 10
)

// isAnswer reports whether an event answers a question.
func isAnswer(k event.Kind) bool {
	switch k {
	case event.KindConfirm, event.KindChoice, event.KindReading, event.KindWent:
		return true
	}
	return false
}

// endless offers to stop safely where there is no end in sight, with what is
// thought to be wrong; "" while there may be one.
func (s State) endless() string {
	if n := s.answers; n < endlessAnswers || (n-endlessAnswers)%endlessAgain != 0 || s.ending() {
		return ""
	}
	return fmt.Sprintf("%d answers and no end in sight: %s. Better stop safely and hold it back for trained hands, or go on.", s.answers, s.suspected())
}

// ending reports whether the session is about to end as it is.
func (s State) ending() bool {
	switch s.Stage().ID {
	case StagePutAway, StageStopping, StageSwing:
		return true
	}
	return false
}

// suspected says what is thought to keep the session from its end.
func (s State) suspected() string {
	if noted := s.noted(); len(noted) > 0 {
		return last(noted)
	}
	m := s.Working()
	switch {
	case s.Of(optics.Secondary).Redone || s.Of(optics.Primary).Redone:
		return "what is set does not stay as it is set"
	case s.T.Gone && m == optics.Primary:
		return "the return spot is not found"
	case s.Tel.Cell(m).Screws == 4:
		return fmt.Sprintf("the %s may rock on its four screws, one of which hangs free", m)
	case s.Of(m).Headway.Unlikely > 0:
		return fmt.Sprintf("the %s's screws do not do what they are thought to", m)
	}
	return fmt.Sprintf("the %s's spot is not brought nearer than it is", m)
}
