package session

import (
	"fmt"
	"slices"

	"spotward/optics"
	"spotward/session/words"
)

// Method returns what is known of how this scope is being aligned.
func (s State) Method() optics.Method {
	m := optics.Method{Use: s.use(), SeatSpreadMM: s.Laser.SeatMM}
	if s.Laser.CircleMM >= 0 {
		c := s.Laser.CircleMM
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

// RedAt returns where red shows on the card over the open end, on the dial of
// somebody who stands at the sky end: where it was read there, else where the
// spot on the primary says that the beam leaves, or where it stays inside the
// side that it is nearer to. It is false as long as nobody can know, and the
// card then covers the whole end.
func (s State) RedAt() (optics.Dial, bool) {
	if s.red.Known {
		at := s.Tel.TubeToDial(optics.FaceCard, s.red.At.At)
		return at, at.Len() > 0
	}
	if at, leaves := s.Leaves(); leaves {
		return at, true
	}
	if !s.p.Known || s.t.Gone {
		return optics.Dial{}, false
	}
	at := s.Tel.TubeToDial(optics.FacePrimary, s.p.At.At)
	return at, at.Len() > 0
}

// covered is how much of the open end the card covers: all of it until it is
// known which half must stay covered. A question about the spot on a mirror says
// itself how to find that out.
func (s State) covered(a Ask) Card {
	if _, known := s.RedAt(); a.Header.Card == CardHalf && !known && a.Face == "" {
		return CardWhole
	}
	return a.Header.Card
}

// beware returns the cautions of a stage, the most pressing first: where a hand
// is about to turn a screw, that of the screws; where an eye is about to look
// in at the sky end, where the beam leaves.
func (s State) beware(st *Stage, step *Step) []string {
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
	beam := s.beam(st, step)
	switch {
	case beam == "":
		return list
	case s.told != nil && len(list) > 0:
		return append([]string{list[0], beam}, list[1:]...)
	}
	return append([]string{beam}, list...)
}

// beam says where the beam leaves by the open end, and where to look in; "" for
// nowhere, and for somebody who stands elsewhere, with the card over the whole
// end.
func (s State) beam(st *Stage, step *Step) string {
	at, leaves := s.Leaves()
	stand := st.Header.Stand
	if step.Header != nil {
		stand = step.Header.Stand
	}
	if !leaves || !s.Laser.On || stand != StandSky {
		return ""
	}
	other := optics.Dial{Right: -at.Right, Up: -at.Up}
	return fmt.Sprintf("Leave the card where red falls on it, about %s: look in from the side of %s, eye outside the rim.",
		words.HourWords(at), words.HourWords(other))
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
