package session

import (
	"errors"
	"fmt"

	"spotward/optics"
	"spotward/session/event"
	"spotward/session/words"
)

// Finer is what a check finer than the spots found. A record keeps it.
type Finer struct {
	Check          StageID `json:"check"`
	Words          string  `json:"words"`
	AxisErrorMM    float64 `json:"axis_error_mm,omitempty"`
	AxisErrorMaxMM float64 `json:"axis_error_max_mm,omitempty"` // the true one is within it in 95 of 100
	Off            bool    `json:"off,omitempty"`               // more likely than not beyond what is allowed
}

// finerLook is how the finer check in hand stands.
type finerLook struct {
	on     bool // wanted, and what it needs is there
	seen   bool // at is what the last look came to
	at     optics.Belief
	waves  float64         // of a star, out of focus
	focus  optics.Focus    // the side of focus on which it is looked at now
	inside optics.StarLook // what it showed inside focus
	thin   float64         // of its light there, on the thinner side; < 0: not said
	words  string          // what the last look came to
	first  string          // what the first one did, before a screw was turned for it
	choice string          // what to do about what was found
	eased  bool            // the locks were eased for it
	turned bool
	rounds int
	sharp  bool // the last look was a picture
}

// askFiner takes the wish for a finer check: before the laser goes in, of the
// secondary's place; before the kit is put away, of the axis by the ring's
// shadow and by a star.
func askFiner(s *State, _ event.Event) error {
	switch s.Stage().ID {
	case StageStopping:
		return errors.New("making safe: no finer check now")
	case StageReady, StageEmpty:
		s.measurePlace()
	case StagePutAway:
		if s.Checks.offered || !s.finerHelps() {
			return errors.New("no finer check now: it was made already, or would show nothing new. Answer what is asked")
		}
	}
	if s.Tel.LensInside {
		return errors.New("a star is the finer check here: it comes before the kit is put away")
	}
	if s.Checks.Asked {
		return errors.New("a finer check is noted already: it comes before the kit is put away")
	}
	s.Checks.Asked = true
	if s.Stage().ID == StagePutAway {
		s.way.at--
		s.offerFiner()
		s.enter(s.way.at + 1)
	}
	return nil
}

// finerHelps reports whether the axis is worth a finer check.
func (s State) finerHelps() bool {
	return s.Verdict != "" && s.Verdict != VerdictNotToday && s.HoldBack == ""
}

// offerFiner puts the checks that were asked for before the last stage.
func (s *State) offerFiner() {
	if !s.Checks.Asked || s.Checks.offered || s.way.plan[s.way.at+1] != StagePutAway || !s.finerHelps() {
		return
	}
	s.Checks.offered = true
	s.way.plan = append(s.way.plan[:s.way.at+1:s.way.at+1], StageShadow, StageStar, StagePutAway)
	s.phased()
}

// finerNote says what a finer check has shown to be right; or that one is to be had,
// where the spots cannot show what this scope asks for.
func (s State) finerNote() string {
	if n := len(s.Checks.Found); n > 0 && s.Checks.offered && s.Checks.Found[n-1].Check != StagePlace && !s.Checks.Found[n-1].Off {
		return s.Checks.Found[n-1].Words // that it is right was not said before
	}
	b := s.Tel.BudgetOf(s.Method())
	if s.Tel.LensInside || b.Enough() || s.Checks.offered || !s.finerHelps() {
		return ""
	}
	const finer = "For a finer check, by the ring's shadow or a star, type: finer."
	if c, ok := s.Claim(); ok && c.Grade() == optics.GradeReady {
		return finer // what was seen of the glow has shown more than home alone
	}
	return fmt.Sprintf("Even with both spots home the axis may be %.1f mm off; %.1f mm is allowed. ", b.WithinMM(), b.AllowedMM) + finer
}

// finerOff returns what the finer checks have found wrong, in a sentence, or
// "", and whether the axis is. Of the shadow and a star the later has the last word.
func (s State) finerOff() (words string, axis bool) {
	for i, f := range s.Checks.Found {
		switch {
		case !f.Off:
		case f.Check == StagePlace || s.Tel.LensInside:
			words = f.Words
		case i == len(s.Checks.Found)-1:
			words = fmt.Sprintf("%s shows an axis error of %.1f mm; %.1f mm is allowed.", checkName(f.Check), f.AxisErrorMM, s.AllowedMM())
			axis = true
		}
	}
	return words, axis
}

func checkName(id StageID) string {
	if id == StageStar {
		return "a star"
	}
	return "the ring's shadow"
}

// finerNoteNow returns what the finer check in hand has come to, while it is
// asked what to do about it.
func (s State) finerNoteNow() string {
	if s.finerTodo() && s.finer.choice == "" {
		return s.finer.words
	}
	return ""
}

// wantFiner takes the answer to whether the check of this stage is made.
func wantFiner(s *State, ev event.Event) {
	s.finer = finerLook{on: ev.Choice == FinerYes, focus: optics.InsideFocus, thin: -1}
}

// lookAgain has the finer look made anew: of a star, on both sides of focus.
func (s *State) lookAgain() {
	s.finer.seen, s.finer.focus, s.finer.thin, s.finer.choice = false, optics.InsideFocus, -1, ""
}

// The answers to whether a finer check is made.
const (
	FinerYes = "yes"
	FinerNo  = "no"
)

// found takes what a finer look has come to.
func (s *State) found(at optics.Belief, says func(State) string) {
	s.finer.seen, s.finer.at, s.finer.choice = true, at, ""
	claim := s.Tel.Claim(s.Use(), at)
	f := Finer{
		Check: s.Stage().ID, AxisErrorMM: words.Round(claim.AboutMM, 2), AxisErrorMaxMM: words.Round(claim.AtMostMM, 2), Off: s.finerBeyond(),
	}
	f.Words = says(*s)
	s.finer.words = f.Words
	if !s.finer.turned {
		s.finer.first = f.Words
	} else {
		f.Words += " Before the primary was turned for it: " + s.finer.first
	}
	s.keepFiner(f)
	// What was left is claimed by the best that was seen of it.
	if left := &s.Left; s.finer.turned || f.Off || !left.ErrKnown || f.AxisErrorMaxMM < left.ErrMaxMM {
		left.Claims(claim)
		left.Turned = s.Since.Turns
	}
}

// keepFiner keeps the last finding of each check, the latest last.
func (s *State) keepFiner(f Finer) {
	var kept []Finer
	for _, k := range s.Checks.Found {
		if k.Check != f.Check {
			kept = append(kept, k)
		}
	}
	s.Checks.Found = append(kept, f)
}

// finerBeyond reports whether what was found is more likely than not beyond
// what is allowed.
func (s State) finerBeyond() bool {
	return s.finer.at.At.Len() > s.AllowedMM()
}

// finerNearer reports whether the axis, though within what is allowed as far as can
// be told, would be likely enough so if it were taken on to where the last look has
// it right. Only a picture shows that finely enough for a hand to follow.
func (s State) finerNearer() bool {
	if !s.finer.sharp {
		return false
	}
	is, home := s.Tel.Claim(s.Use(), s.finer.at), s.Tel.Claim(s.Use(), optics.Belief{Cov: s.finer.at.Cov})
	return is.Grade() != optics.GradeReady && home.Grade() == optics.GradeReady
}

// finerFigures says what was found against what is allowed.
func (s State) finerFigures() string {
	at := s.finer.at
	if at.At.Len() < 0.05 {
		return fmt.Sprintf("the axis misses by no more than %.1f mm; %.1f mm is allowed.", at.WithinMM(0.95), s.AllowedMM())
	}
	return fmt.Sprintf("the axis misses by about %.1f mm, at most %.1f mm; %.1f mm is allowed.", at.At.Len(), at.WithinMM(0.95), s.AllowedMM())
}

// spotsSay returns what the spots said of the axis when they were last read
// together, and false where they did not.
func (s State) spotsSay() (optics.Belief, bool) {
	p, t := s.Left.P, s.Left.T
	if !p.Known || !t.Known {
		return optics.Belief{}, false
	}
	e := s.Tel.AxisErrorBelief(p.At, t.At)
	e.At = s.Tel.AxisErrorWith(s.Laser.Aims, p.At.At, t.At.At)
	return e, true
}
