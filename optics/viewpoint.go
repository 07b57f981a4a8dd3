package optics

import "math"

// Station is where a person stands.
type Station string

// SkyEnd: at the open end, looking down the tube. Behind: at the other end,
// looking up past the primary's cell, or along the tube at the slanted face.
const (
	SkyEnd Station = "sky end"
	Behind Station = "behind"
)

// Station returns where one stands to see face f: at the sky end, but for a
// slanted target, which is seen from behind.
func (t Telescope) Station(f Face) Station {
	if f == FaceTarget && !t.Target.Flat {
		return Behind
	}
	return SkyEnd
}

// ScrewStation returns where one stands to face the heads of mirror m's screws.
func ScrewStation(m Mirror) Station {
	if m == Primary {
		return Behind
	}
	return SkyEnd
}

// turnDeg returns how far, clockwise, the direction toward the focuser (up in
// Seen) stands from straight up for somebody at s. From behind the dial is the
// mirror image: a focuser at 2:00 from the sky end is at 10:00.
func (t Telescope) turnDeg(s Station) float64 {
	if s == Behind {
		return -t.FocuserDeg
	}
	return t.FocuserDeg
}

// FocuserDial returns the direction, of length 1, in which somebody at s sees
// the focuser.
func (t Telescope) FocuserDial(s Station) Dial { return AtHour(t.turnDeg(s)/30, 1) }

// ToSeen turns a point on face f into what one sees of it with 12 o'clock
// toward the focuser. A viewer is right-handed (right = look × up):
//
//	primary, secondary, card, from the sky end   right = −y,  up = +x
//	slanted target, along the tube               right = +ty, up = −tx
//	flat target, in the mirrors                  right = −ty, up = +tx
//	mouth, obliquely from the sky end: its near side is the outer one to the eye
//	                                             right = −ty, up = +tx
func (t Telescope) ToSeen(f Face, at Tube) Seen {
	if t.Station(f) == Behind {
		return Seen{Right: at.Y, Up: -at.X}
	}
	return Seen{Right: -at.Y, Up: at.X}
}

// FromSeen is the inverse of ToSeen.
func (t Telescope) FromSeen(f Face, s Seen) Tube {
	if t.Station(f) == Behind {
		return Tube{X: -s.Up, Y: s.Right}
	}
	return Tube{X: s.Up, Y: -s.Right}
}

// ToDial turns what is seen on face f with the focuser at 12 into the dial of
// a person who stands there, 12 straight up.
func (t Telescope) ToDial(f Face, s Seen) Dial {
	right, up := clockwise(s.Right, s.Up, t.turnDeg(t.Station(f)))
	return Dial{right, up}
}

// FromDial is the inverse of ToDial.
func (t Telescope) FromDial(f Face, d Dial) Seen {
	right, up := clockwise(d.Right, d.Up, -t.turnDeg(t.Station(f)))
	return Seen{right, up}
}

// clockwise turns (right, up) by deg, clockwise as seen.
func clockwise(right, up, deg float64) (float64, float64) {
	s, c := math.Sincos(deg * math.Pi / 180)
	return right*c + up*s, up*c - right*s
}

// TubeToDial turns a point on face f into the dial of a person who stands where
// it is seen, 12 straight up.
func (t Telescope) TubeToDial(f Face, at Tube) Dial { return t.ToDial(f, t.ToSeen(f, at)) }

// DialToTube is the inverse of TubeToDial.
func (t Telescope) DialToTube(f Face, d Dial) Tube { return t.FromSeen(f, t.FromDial(f, d)) }

// ScrewDial returns the direction, of length 1, in which screw i of mirror m
// stands for a person who faces the heads.
func (t Telescope) ScrewDial(m Mirror, i int) Dial {
	return AtHour((t.Cell(m).ScrewDeg(i)+t.turnDeg(ScrewStation(m)))/30, 1)
}

// CovFromSeen turns a covariance (XX of right, YY of up) of a point seen on
// face f into the tube's frame.
func (t Telescope) CovFromSeen(f Face, c Cov) Cov {
	return c.through(t.FromSeen(f, Seen{Right: 1}), t.FromSeen(f, Seen{Up: 1}))
}

// CovToSeen turns a covariance in the tube's frame into one as seen on face f
// (XX of right, YY of up).
func (t Telescope) CovToSeen(f Face, c Cov) Cov {
	x, y := t.ToSeen(f, Tube{X: 1}), t.ToSeen(f, Tube{Y: 1})
	return c.through(Tube{x.Right, x.Up}, Tube{y.Right, y.Up})
}

// through returns the covariance of the image of a point under the linear map
// that takes the first axis to a and the second to b.
func (c Cov) through(a, b Tube) Cov {
	return Cov{
		XX: a.X*a.X*c.XX + 2*a.X*b.X*c.XY + b.X*b.X*c.YY,
		XY: a.X*a.Y*c.XX + (a.X*b.Y+b.X*a.Y)*c.XY + b.X*b.Y*c.YY,
		YY: a.Y*a.Y*c.XX + 2*a.Y*b.Y*c.XY + b.Y*b.Y*c.YY,
	}
}

// ToRings turns a point of the target into what its printed rings say of it (mm
// as printed), on the dial: rings that are circles on the slanted face read √2
// too long up and down it.
func (t Telescope) ToRings(s Seen) Dial {
	s.Up /= t.ringScale()
	return t.ToDial(FaceTarget, s)
}

// ringScale returns mm across the beam for a printed mm up and down the face.
func (t Telescope) ringScale() float64 {
	if t.Target.AlongFace && !t.Target.Flat {
		return math.Sqrt2 / 2
	}
	return 1
}
