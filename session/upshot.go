package session

import (
	"fmt"
	"strings"

	"spotward/optics"
	"spotward/session/event"
	"spotward/session/words"
)

// UpshotKind is the answer to whether the scope is good enough.
type UpshotKind string

// The answers.
const (
	GoodEnough UpshotKind = "good_enough"
	AsNear     UpshotKind = "as_near"
	NotToday   UpshotKind = "not_today"
)

// Lead returns the answer's first words.
func (k UpshotKind) Lead() string {
	switch k {
	case GoodEnough:
		return "Good enough"
	case AsNear:
		return "As near as this laser can show"
	}
	return "Not today"
}

// Upshot is what a session comes to for whoever takes the scope out.
type Upshot struct {
	Kind UpshotKind `json:"kind"`
	Text string     `json:"text"` // after the lead
}

// Words returns the upshot as one line.
func (u Upshot) Words() string { return u.Kind.Lead() + ": " + u.Text + "." }

// Upshot returns the answer to whether the scope is good enough.
func (s State) Upshot() Upshot {
	tag, grade := s.tagAdvised(), s.grade()
	switch s.outcomeNow() {
	case OutcomeStopped:
		if s.stoppedItself {
			return Upshot{NotToday, s.HoldBack}
		}
		return Upshot{NotToday, "stopped before it was done"}
	case OutcomeNotToday:
		return Upshot{NotToday, "it was not aligned"}
	case OutcomePartly:
		switch {
		case s.Check:
			return Upshot{NotToday, "it needs aligning"}
		case tag == TagHoldBack && s.HoldBack == "":
			return Upshot{NotToday, "its locks are loose"}
		case tag == TagHoldBack:
			return Upshot{NotToday, s.HoldBack}
		case s.skipped(StageSwing):
			return Upshot{AsNear, "whether it holds was not looked at"}
		}
		return Upshot{AsNear, "not everything was reached"}
	}
	switch grade {
	case optics.GradeReady:
		return Upshot{GoodEnough, "likely aligned for " + s.useWords()}
	case optics.GradeLowPower:
		return Upshot{AsNear, "good for low power, not proven for high"}
	}
	return Upshot{AsNear, "a finer check is due"}
}

// outcomeNow is the outcome, or what it would be if the session ended here.
func (s State) outcomeNow() string {
	if s.Outcome != "" {
		return s.Outcome
	}
	return s.outcome()
}

func (s State) useWords() string {
	switch s.Use() {
	case optics.LowPower:
		return "low power"
	case optics.Planets:
		return "the planets"
	}
	return "all-round use"
}

// remark returns what was noted of the scope beside its axis error, or "".
func (s State) remark() string {
	off, _ := s.finerOff()
	switch {
	case off != "":
		return "Noted: " + off
	case len(s.Noted()) > 0:
		return "Noted: " + last(s.Noted()) + "."
	}
	return ""
}

// tagWhy says why the tag is what it is: how likely the axis is good enough, what
// that rests on, and what would settle it.
func (s State) tagWhy() string {
	switch {
	case s.HoldBack != "":
		return "Hold back: " + s.HoldBack + "."
	case s.outcomeNow() == OutcomeNotToday, s.outcomeNow() == OutcomeStopped:
		return s.remark()
	case s.Check && s.outcomeNow() == OutcomePartly:
		return "It needs aligning."
	case s.Tel.LensInside && s.remark() != "":
		return s.remark()
	case s.Tel.LensInside && !s.Leaves().Centred && s.Verdict == VerdictLeave:
		return "The secondary is out, and was left as it is."
	case s.Tel.LensInside && !s.evenOnStar():
		return "The primary was not checked: a lens is built into this tube, and no star was looked at."
	}
	var said []string
	if remark := s.remark(); remark != "" {
		said = append(said, remark)
	} else if s.outcomeNow() == OutcomePartly {
		said = append(said, "Not everything was reached.")
	}
	left := s.Leaves()
	if !left.ErrKnown {
		return strings.Join(append(said, "How the axis was left is not known."), " ")
	}
	said = append(said, claimWords(left.Claim), s.restsOn())
	if left.Claim.Grade() != optics.GradeReady {
		said = append(said, s.settleWords())
	}
	return strings.Join(said, " ")
}

// claimWords says how likely the axis error is within what is allowed.
func claimWords(c optics.Claim) string {
	return fmt.Sprintf("Near enough? %s: about %.1f mm, at most %.1f mm; %.1f mm is allowed.",
		capital(words.Chance(c.Within)), c.AboutMM, c.AtMostMM, c.AllowedMM)
}

func capital(text string) string { return strings.TrimSuffix(words.Sentence(text), ".") }

// restsOn says what the claim rests on.
func (s State) restsOn() string {
	if f := s.Checks.Found; len(f) > 0 && f[len(f)-1].Check != StagePlace {
		return "By " + checkName(f[len(f)-1].Check) + "."
	}
	said := "By both spots as read"
	switch left := s.Leaves(); {
	case left.T.Saw == event.SawHome && left.P.Picture != nil:
		said = "By one spot from a picture and one in the hole"
	case left.T.Saw == event.SawHome:
		said = "By one spot as read and one in the hole"
	case left.P.Picture != nil:
		said = "By one spot from a picture and one as read"
	}
	m := s.Method()
	switch ring, laser := m.RingPlacedMM != nil, m.LaserOffsetMM != nil; {
	case ring && laser:
		return said + ". Ring and laser were measured."
	case ring:
		return said + ". The ring was measured, the laser was not."
	case laser:
		return said + ". The laser was measured, the ring was not."
	}
	return said + ". Ring and laser were never measured."
}

// Settling returns the cheapest looks that would settle whether the axis is good
// enough. It is empty where that is settled, where no axis error is claimed, and
// where only spots nearer home would do.
func (s State) Settling() []optics.Look {
	left := s.Leaves()
	if !left.ErrKnown || left.Claim.Grade() == optics.GradeReady {
		return nil
	}
	var without []optics.Look
	if s.Over || s.Stage().ID == StagePutAway { // the laser is out
		without = []optics.Look{optics.LookEven, optics.LookTwice, optics.LookPicture}
	}
	return s.Tel.Settling(s.Method(), left.P.At.Cov.Sigma(), left.T.At.Cov.Sigma(), without...)
}

// settleWords says the cheapest look that would settle it.
func (s State) settleWords() string {
	looks := s.Settling()
	if len(looks) == 0 { // sure enough, were it not for where the spots stand
		return "To settle it: bring both spots nearer home."
	}
	return "To settle it: " + words.Looks(looks) + "."
}
