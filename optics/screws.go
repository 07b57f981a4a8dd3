package optics

import "math"

// Position returns where screw i of mirror m stands, mm from the tube's axis,
// in the tube's frame. The secondary's heads are faced from the sky end (right
// = −y, up = +x), the primary's from behind (right = +y, up = +x).
func (c Cell) Position(m Mirror, i int) Tube {
	s, k := math.Sincos(c.ScrewDeg(i) * math.Pi / 180)
	if m == Secondary {
		s = -s
	}
	return Tube{X: c.CircleMM * k, Y: c.CircleMM * s}
}

// clockwiseDZ returns how far one clockwise turn, facing the head, moves the
// plate along z at the screw, mm. The secondary's heads look to the sky, the
// primary's away from it; threads are right-handed.
func (c Cell) clockwiseDZ(m Mirror) float64 {
	towardSky := c.ClockwisePulls == (m == Secondary)
	if towardSky {
		return c.LeadMM
	}
	return -c.LeadMM
}

// Tilt returns what turns of the screws (clockwise positive, one number a
// screw) do to mirror m: the plane of least squares through the screws' tips,
// gradient 2/(N·R)·Σ dz·û and shift Σ dz/N.
//
// Three tips have just one plane. Four stay in one where opposite screws go
// against each other, or all alike; else the plate rocks on three of them and
// nobody knows which three, so that the plane of least squares is the mean of
// what may happen.
func (c Cell) Tilt(m Mirror, turns []float64) Tilt {
	var tilt Tilt
	n := float64(len(turns))
	for i, turn := range turns {
		dz := turn * c.clockwiseDZ(m)
		at := c.Position(m, i)
		tilt.Grad = tilt.Grad.Add(at.Scale(2 * dz / (n * c.CircleMM * c.CircleMM)))
		tilt.ShiftMM += dz / n
	}
	return tilt
}

// SpotFace returns the face whose spot mirror m is adjusted by: the spot on
// the primary for the secondary, the return spot on the target for the
// primary.
func (m Mirror) SpotFace() Face {
	if m == Secondary {
		return FacePrimary
	}
	return FaceTarget
}

// NominalResponse returns, to first order, what one clockwise turn of each
// screw of mirror m does to the spot it is adjusted by (see SpotFace), in mm a
// turn. For four screws only differences of opposite ones mean something (see
// Tilt).
func (t Telescope) NominalResponse(m Mirror) []Tube {
	cell := t.Cell(m)
	response := make([]Tube, cell.Screws)
	for i := range response {
		turns := make([]float64, cell.Screws)
		turns[i] = 1
		tilt := cell.Tilt(m, turns)
		if m == Secondary {
			response[i] = t.FirstOrder(Pose{Secondary: tilt}).P
		} else {
			response[i] = t.FirstOrder(Pose{Primary: tilt}).T
		}
	}
	return response
}
