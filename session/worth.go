package session

import (
	"fmt"
	"slices"
	"strings"

	"spotward/optics"
	"spotward/session/words"
)

// Method returns what is known of how this scope is being aligned.
func (s State) Method() optics.Method {
	m := s.Scope.Method()
	m.Use, m.SeatSpreadMM = s.use(), s.Laser.SeatMM
	if s.Laser.CircleMM >= 0 {
		c := s.Laser.CircleMM
		m.CircleMM = &c
	}
	return m
}

// outlet is where the beam leaves by the open end, and where red shows on the card
// over it, on the dial of somebody who stands at the sky end.
type outlet struct {
	leaves bool // by the open end, as far as the spots tell
	at     optics.Dial
	known  bool // where red shows
	none   bool // the whole card was looked at, and no red showed
	red    optics.Dial
}

// outlet traces the beam as far as the spots tell. Where red shows is known where
// it was read on the card, else where the spot on the primary says that the beam
// leaves, or where it stays inside the side that it is nearer to.
func (s State) outlet() outlet {
	o := outlet{none: s.red.Gone}
	if s.p.Known {
		var t *optics.Tube
		if s.t.Known {
			t = &s.t.At.At
		}
		if spots, err := s.Tel.LookBeam(s.p.At.At, t); err == nil && spots.Leaves {
			o.leaves, o.at = true, s.Tel.TubeToDial(optics.FaceCard, spots.LeavesAt)
		}
	}
	switch {
	case s.red.Known:
		o.red = s.Tel.TubeToDial(optics.FaceCard, s.red.At.At)
		o.known = o.red.Len() > 0
	case o.leaves:
		o.red, o.known = o.at, true
	case s.p.Known && !s.t.Gone:
		o.red = s.Tel.TubeToDial(optics.FacePrimary, s.p.At.At)
		o.known = o.red.Len() > 0
	}
	return o
}

// NoRed reports whether the card was looked at and showed no red: either half may
// come off.
func (s State) NoRed() bool { return s.red.Gone }

// RedAt returns where red shows on the card over the open end, on the dial of
// somebody who stands at the sky end. It is false as long as nobody can know, and
// the card then covers the whole end.
func (s State) RedAt() (optics.Dial, bool) {
	o := s.outlet()
	return o.red, o.known
}

// covered is how much of the open end the card covers: all of it until it is
// known which half must stay covered. A question about the spot on a mirror says
// itself how to find that out.
func covered(a Ask, o outlet) Card {
	if a.Header.Card == CardHalf && !o.known && !o.none && a.Face == "" {
		return CardWhole
	}
	return a.Header.Card
}

// beware returns the cautions of a stage, the most pressing first: where a hand
// is about to turn a screw, that of the screws; where an eye is about to look
// in at the sky end, where the beam leaves.
func (s State) beware(st *Stage, step *Step, beam string) []string {
	list := st.Beware
	if st.Eyes > 0 && s.told == nil {
		list = append([]string{list[st.Eyes]}, slices.Delete(slices.Clone(list), st.Eyes, st.Eyes+1)...)
	}
	if step.Beware != nil {
		list = step.Beware
	}
	if s.Laser.Weak {
		list = append([]string{"A weak laser is dim everywhere: dim is not home, home is seen going in. Better: laser off and out, a fresh cell, the old one counted; then say fresh cell."}, list...)
	}
	switch {
	case beam == "":
		return list
	case s.told != nil && len(list) > 0:
		return append([]string{list[0], beam}, list[1:]...)
	}
	return append([]string{beam}, list...)
}

// beam says to somebody at the sky end where the beam leaves by it, and where to
// look in; "" for nowhere.
func (s State) beam(o outlet) string {
	if !o.leaves || !s.Laser.On {
		return ""
	}
	other := optics.Dial{Right: -o.at.Right, Up: -o.at.Up}
	return fmt.Sprintf("Leave the card where red falls on it, about %s: look in from the side of %s, eye outside the rim.",
		words.HourWords(o.at), words.HourWords(other))
}

// note returns what is to be known before the question of a step is answered,
// beyond the question itself.
func (s State) note() string {
	if now := s.foundNow(); now != "" {
		return now
	}
	return strings.TrimSpace(s.before() + " " + s.noteOfStage())
}

// before returns what the records say of scope and kit: before anything is
// turned, and again where a tag is chosen.
func (s State) before() string {
	if s.Stage().ID == StageReady || s.Stage().ID == StagePutAway && s.step().ID == StepTag {
		return strings.Join(s.Before, " ")
	}
	return ""
}

func (s State) noteOfStage() string {
	if s.swung != "" {
		return s.swung
	}
	switch s.Stage().ID {
	case StageReady:
		if s.Tel.LensInside {
			return optics.LensInsideWords
		}
		if s.Scope.MayHaveLens() {
			return fmt.Sprintf("Is the tube much shorter than %s? Then a lens is built into it, and the laser's return is not to be trusted. Put the tube's length into the scope's file.", s.Scope.FocalLength.Text())
		}
	case StageVerdict:
		if s.Tel.LensInside {
			return "" // the verdict itself has said it
		}
		return s.Tel.BudgetWords(s.Method())
	case StagePutAway:
		return s.finerNote()
	case StageShadow, StageStar:
		return s.finerNoteNow()
	}
	return ""
}
