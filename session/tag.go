package session

import (
	"fmt"

	"spotward/session/words"
)

// The tags that go on a scope.
const (
	TagReady    = "ready"
	TagWithNote = "with_note"
	TagHoldBack = "hold_back"
)

// The outcomes of a session.
const (
	OutcomeAligned  = "aligned"
	OutcomeLeft     = "left"
	OutcomePartly   = "partly"
	OutcomeStopped  = "stopped"
	OutcomeNotToday = "not_today"
)

// outcome says what the session amounts to, from what was left.
func (s State) outcome() string {
	switch {
	case s.Verdict == VerdictLeave:
		return OutcomeLeft
	case s.Verdict == VerdictNotToday || s.Verdict == "":
		return OutcomeNotToday
	case s.Check || s.HoldBack != "" || s.skipped(StageSwing) || !s.Left.Centred || !s.Left.Home && !s.evenOnStar():
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

// noted returns what is to be known of screws and laser, in words.
func (s State) noted() []string {
	if s.Laser.Weak {
		return append(s.trouble[:len(s.trouble):len(s.trouble)], "the laser is weak")
	}
	return s.trouble
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

// unproven reports that the spots are at their goals and the axis error they
// claim is over what is allowed all the same.
func (s State) unproven() bool { return s.Left.ErrKnown && s.Left.ErrMM > s.AllowedMM() }

// tagAdvised returns the tag that follows from what was left.
func (s State) tagAdvised() string {
	switch s.outcome() {
	case OutcomeAligned, OutcomeLeft:
		if off, _ := s.finerOff(); off != "" || len(s.noted()) > 0 || len(s.Skips) > 0 || s.unproven() || s.Tel.LensInside && !(s.evenOnStar() && s.Left.Centred) {
			return TagWithNote
		}
		return TagReady
	case OutcomeNotToday:
		return TagHoldBack
	}
	if s.HoldBack != "" || s.Slack() > easeTurns/2 {
		return TagHoldBack
	}
	return TagWithNote
}

func (s State) tagWhy() string {
	off, _ := s.finerOff()
	switch {
	case s.HoldBack != "":
		return "Hold back: " + s.HoldBack + "."
	case off != "":
		return "Noted: " + off
	case len(s.noted()) > 0:
		return "Noted: " + last(s.noted()) + "."
	case s.Check && s.outcome() == OutcomePartly:
		return "It wants aligning."
	case s.Tel.LensInside && !s.Left.Centred && s.Verdict == VerdictLeave:
		return "The secondary is out, and was left as it is."
	case s.Tel.LensInside && !s.evenOnStar() && s.outcome() != OutcomeNotToday:
		return "The primary was not checked: a lens is built into this tube, and no star was looked at."
	case s.outcome() == OutcomePartly:
		return "Not everything was reached."
	case s.unproven():
		return fmt.Sprintf("As near as this laser shows: about %.1f mm, %.1f is allowed. Not yet proven good: a finer check is due.", s.Left.ErrMM, s.AllowedMM())
	}
	return ""
}

func tagOptions(first string) []words.Option {
	text := map[string]string{
		TagReady:    "ready to lend",
		TagWithNote: "ready, with a note",
		TagHoldBack: "hold back",
	}
	opts := []words.Option{{ID: first, Words: text[first]}}
	for _, id := range []string{TagReady, TagWithNote, TagHoldBack} {
		if id != first {
			opts = append(opts, words.Option{ID: id, Words: text[id]})
		}
	}
	return opts
}

// finish ends a session whose last step is answered.
func (s *State) finish() {
	s.Over = true
	if s.Outcome == "" {
		s.Outcome = s.outcome()
	}
}
