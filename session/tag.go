package session

import (
	"spotward/optics"
	"spotward/session/mirrors"
	"spotward/session/words"
)

// The tags that go on a scope.
const (
	TagReady    = "ready"
	TagLowPower = "ready_low_power"
	TagWithNote = "with_note"
	TagHoldBack = "hold_back"
)

// The outcomes of a session.
const (
	OutcomeAligned  = "aligned"
	OutcomeLeft     = "left"
	OutcomePartly   = "partly"
	OutcomeStopped  = "stopped"
	OutcomeDropped  = "not_finished" // left, and dropped later: of records alone
	OutcomeNotToday = "not_today"
)

// outcome says what the session amounts to, from what was left.
func (s State) outcome() string {
	left := s.Leaves()
	switch {
	case s.Verdict == VerdictLeave:
		return OutcomeLeft
	case s.Verdict == VerdictNotToday || s.Verdict == "":
		return OutcomeNotToday
	case s.Check || s.HoldBack != "" || s.skipped(StageSwing) || !left.Centred || !left.Home && !s.evenOnStar():
		return OutcomePartly
	}
	if _, axis := s.finerOff(); axis {
		return OutcomePartly
	}
	return OutcomeAligned
}

// evenOnStar reports that a lens is built in, and a star has shown what the laser
// could not: light that is even on both sides of focus.
func (s State) evenOnStar() bool {
	for _, f := range s.Checks.Found {
		if f.Check == StageStar && s.Tel.LensInside {
			return !f.Off
		}
	}
	return false
}

func last(list []string) string { return list[len(list)-1] }

func (s State) skipped(id StageID) bool {
	for _, k := range s.Skips {
		if k.Stage == id {
			return true
		}
	}
	return false
}

// grade returns what the claim that is left earns. Where nothing is claimed a
// finer check is due.
func (s State) grade() optics.Grade {
	if s.evenOnStar() && s.Leaves().Centred {
		return optics.GradeReady
	}
	if left := s.Leaves(); left.ErrKnown {
		return left.Claim.Grade()
	}
	return optics.GradeNote
}

// tagAdvised returns the tag that follows from what was left.
func (s State) tagAdvised() string {
	left := s.Leaves()
	switch s.outcome() {
	case OutcomeAligned, OutcomeLeft:
		if s.remark() != "" || len(s.Skips) > 0 || s.Tel.LensInside && !(s.evenOnStar() && left.Centred) {
			return TagWithNote
		}
		return string(s.grade())
	case OutcomeNotToday:
		return TagHoldBack
	}
	if s.HoldBack != "" || s.Slack() > mirrors.EaseTurns/2 {
		return TagHoldBack
	}
	return TagWithNote
}

func tagOptions(first string) []words.Option {
	text := func(id string) string {
		if id == TagReady {
			return "ready to lend"
		}
		return words.Tag(id)
	}
	opts := []words.Option{{ID: first, Words: text(first)}}
	for _, id := range []string{TagReady, TagLowPower, TagWithNote, TagHoldBack} {
		if id != first {
			opts = append(opts, words.Option{ID: id, Words: text(id)})
		}
	}
	return opts
}

// finish ends a session whose last step is answered.
func (s *State) finish() {
	s.Over = true
	s.Left = s.Leaves()
	if s.Outcome == "" {
		s.Outcome = s.outcome()
	}
}
