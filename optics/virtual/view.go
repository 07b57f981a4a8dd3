package virtual

import (
	"math"

	"spotward/optics"
)

// Where one stands decides which way x and y go: at the sky end, looking down
// the tube, y is on the left; behind, looking up past the cell, on the right.
// On both, 12 is toward the focuser.

// screwAt returns where a screw stands in the tube's frame, mm, which one who
// faces its head sees at deg clockwise from 12: the secondary's from the sky
// end, the primary's from behind.
func screwAt(m optics.Mirror, deg, radiusMM float64) optics.Tube {
	s, c := math.Sincos(deg * math.Pi / 180)
	if m == optics.Secondary {
		s = -s
	}
	return optics.Tube{X: radiusMM * c, Y: radiusMM * s}
}

// wayOf returns which way along z a clockwise turn takes a plate: a head at the
// sky end that is pulled comes toward the sky, one behind the primary away
// from it.
func wayOf(m optics.Mirror, clockwisePulls bool) float64 {
	if (m == optics.Secondary) == clockwisePulls {
		return 1
	}
	return -1
}

// fromBehind tells whether a face is looked at from behind the primary; the
// others are from the sky end.
func fromBehind(f optics.Face, t optics.Telescope) bool {
	return f == optics.FaceTarget && !t.Target.Flat
}

// seenOn returns how a point of a face is seen with 12 toward the focuser. On
// the target and the drawtube's mouth the point's X runs along the tube toward
// the sky, and up is where x would be: on a slanted face, whose lower edge is
// the one toward the viewer, that is −z; on what is seen from the sky end, in
// the mirrors or on the tube's wall, it is +z.
func seenOn(f optics.Face, t optics.Telescope, p optics.Tube) optics.Seen {
	if fromBehind(f, t) {
		return optics.Seen{Right: p.Y, Up: -p.X}
	}
	return optics.Seen{Right: -p.Y, Up: p.X}
}

// dialOf turns what is seen until 12 is straight up as one stands: a focuser
// that is at 2:00 from the sky end is at 10:00 from behind.
func dialOf(f optics.Face, t optics.Telescope, s optics.Seen) optics.Dial {
	right, up := clockwise(s.Right, s.Up, focuserTurn(f, t))
	return optics.Dial{Right: right, Up: up}
}

// seenFrom is the inverse of dialOf.
func seenFrom(f optics.Face, t optics.Telescope, d optics.Dial) optics.Seen {
	right, up := clockwise(d.Right, d.Up, -focuserTurn(f, t))
	return optics.Seen{Right: right, Up: up}
}

func focuserTurn(f optics.Face, t optics.Telescope) float64 {
	deg := t.FocuserDeg
	if fromBehind(f, t) {
		deg = -deg
	}
	return deg * math.Pi / 180
}

// clockwise turns a point of a picture by rad.
func clockwise(right, up, rad float64) (float64, float64) {
	s, c := math.Sincos(rad)
	return right*c + up*s, up*c - right*s
}
