package session

import (
	"fmt"

	"spotward/optics"
)

// Method returns what is known of how this scope is being aligned.
func (s State) Method() optics.Method {
	m := optics.Method{Use: s.use(), SeatSpreadMM: s.SeatMM}
	if s.CircleMM >= 0 {
		c := s.CircleMM
		m.CircleMM = &c
	}
	return m
}

// Leaves returns where the beam leaves by the open end, as far as the spots
// tell, on the dial of somebody who stands at the sky end, and false where it
// stays inside.
func (s State) Leaves() (optics.Dial, bool) {
	if !s.p.Known {
		return optics.Dial{}, false
	}
	var t *optics.Tube
	if s.t.Known {
		t = &s.t.At.At
	}
	spots, err := s.Tel.LookBeam(s.p.At.At, t)
	if err != nil || !spots.Leaves {
		return optics.Dial{}, false
	}
	return s.Tel.TubeToDial(optics.FaceCard, spots.LeavesAt), true
}

// beware returns the cautions of a stage, the one that the spots call for
// first.
func (s State) beware(st *Stage, step *Step) []string {
	list := st.Beware
	if step.Beware != nil {
		list = step.Beware
	}
	if s.LaserWeak {
		list = append([]string{"A weak laser is dim everywhere: dim is not home, home is seen going in. Better: laser off and out, a fresh cell, the old one counted; then say fresh cell."}, list...)
	}
	at, leaves := s.Leaves()
	if !leaves || !s.LaserOn {
		return list
	}
	other := optics.Dial{Right: -at.Right, Up: -at.Up}
	return append([]string{fmt.Sprintf("Red on the card, about %s? Leave the card there, and look in from the side of %s, eye outside the rim.",
		HourWords(at), HourWords(other))}, list...)
}

// note returns what is to be known before the question of a step is answered,
// beyond the question itself.
func (s State) note() string {
	switch s.Stage().ID {
	case StageVerdict:
		return s.Tel.BudgetWords(s.Method())
	case StagePutAway:
		return s.finerNote()
	case StageShadow, StageStar:
		return s.finerNoteNow()
	}
	return ""
}
