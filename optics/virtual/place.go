package virtual

import (
	"math"

	"spotward/optics"
)

// PlaceView is what is to be seen through the empty focuser, the eye on its
// axis a hand's breadth behind the focal plane.
type PlaceView struct {
	// AlongMM is how far the secondary's outline stands off the middle of the
	// drawtube, judged by the glass's own width: toward the open end, below zero
	// toward the primary.
	AlongMM float64
	// Round is how long the outline is along the tube over how wide across.
	Round float64
	// Picture is where the middle of the primary's picture stands in the
	// secondary, mm on the primary: X toward the open end, Y as in the tube.
	Picture optics.Tube
	// Missing: the primary's edge is cut off on one side.
	Missing bool
}

// eyeBehindMM is a hand's breadth.
const eyeBehindMM = 100

// Place returns what is truly to be seen through the empty focuser.
func (w *World) Place() PlaceView {
	t := w.real
	toFocus := t.FocalLengthMM - t.FromPrimaryMM
	eye := toFocus + eyeBehindMM
	half := t.MinorAxisMM / 2
	slip := w.setup.Faults.SecondarySlipMM
	near, far := w.glassEnds()
	// Both seen on the plane across the tube's axis.
	up := (near + slip) * eye / (eye - near)
	down := (-far + slip) * eye / (eye + far)
	v := PlaceView{AlongMM: (up + down) / 2, Round: (up - down) / (2 * half)}
	p := w.pose()
	p.Laser = optics.Laser{}
	if s, err := t.Trace(p); err == nil {
		// what the middle of the drawtube looks at on the primary; its middle
		// stands the other way from there
		v.Picture = s.P.Scale(-1)
	}
	// The eye sees the primary through a window: the glass, thrown on it.
	window := half * (eye + t.FromPrimaryMM) / eye
	v.Missing = v.Picture.Len() > window-t.ApertureMM/2
	return v
}

// glassEnds returns how far the glass reaches from the tube's axis, as seen along
// the tube, toward the focuser and away from it: each end lies on the line that
// bounds the cone it was cut for; from its tip the two look alike.
func (w *World) glassEnds() (near, far float64) {
	tip, width := w.coneTip(), w.real.MinorAxisMM
	tan := (math.Hypot(tip, width) - tip) / width
	return tip * tan / (1 + tan), tip * tan / (1 - tan)
}

// coneTip returns how far from the tube's axis, along the focuser, the rays
// meet that come from the primary's edge and just touch the glass's.
func (w *World) coneTip() float64 {
	// Half the cone is D/2 wide at the primary and A/2 at the fold.
	t := w.real
	return t.FromPrimaryMM * t.MinorAxisMM / (t.ApertureMM - t.MinorAxisMM)
}
