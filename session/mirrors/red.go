package mirrors

import (
	"fmt"
	"spotward/optics"
	"spotward/session/words"
)

// Method returns what is known of how this scope is being aligned.
func (s Work) Method() optics.Method {
	m := s.Scope.Method()
	m.Use, m.SeatSpreadMM = s.Use(), s.Laser.SeatMM
	if s.Laser.CircleMM >= 0 {
		c := s.Laser.CircleMM
		m.CircleMM = &c
	}
	return m
}

// Outlet is where the beam leaves by the open end, and where red shows on the card
// over it, on the dial of somebody who stands at the sky end.
type Outlet struct {
	leaves bool // by the open end, as far as the spots tell
	at     optics.Dial
	Known  bool // where red shows
	None   bool // the whole card was looked at, and no red showed
	red    optics.Dial
}

// Outlet traces the beam as far as the spots tell. Where red shows is known where
// it was read on the card, else where the spot on the primary says that the beam
// leaves, or where it stays inside the side that it is nearer to.
func (s Work) Outlet() Outlet {
	o := Outlet{None: s.Red.Gone}
	if s.P.Known {
		var t *optics.Tube
		if s.T.Known {
			t = &s.T.At.At
		}
		if spots, err := s.Tel.LookBeam(s.P.At.At, t); err == nil && spots.Leaves {
			o.leaves, o.at = true, s.Tel.TubeToDial(optics.FaceCard, spots.LeavesAt)
		}
	}
	switch {
	case s.Red.Known:
		o.red = s.Tel.TubeToDial(optics.FaceCard, s.Red.At.At)
		o.Known = o.red.Len() > 0
	case o.leaves:
		o.red, o.Known = o.at, true
	case s.P.Known && !s.T.Gone:
		o.red = s.Tel.TubeToDial(optics.FacePrimary, s.P.At.At)
		o.Known = o.red.Len() > 0
	}
	return o
}

// RedAt returns where red shows on the card over the open end, on the dial of
// somebody who stands at the sky end. It is false as long as nobody can know, and
// the card then covers the whole end.
func (s Work) RedAt() (optics.Dial, bool) {
	o := s.Outlet()
	return o.red, o.Known
}

// Beam says to somebody at the sky end where the beam leaves by it, and where to
// look in; "" for nowhere.
func (s Work) Beam(o Outlet) string {
	if !o.leaves || !s.Laser.On {
		return ""
	}
	red := o.at
	if o.Known { // as it was read: the spots are no better a witness than eyes
		red = o.red
	}
	other := optics.Dial{Right: -red.Right, Up: -red.Up}
	return fmt.Sprintf("Leave the card over the red, about %s. Look in from the side of %s, eye outside the rim.",
		words.HourWords(red), words.HourWords(other))
}
