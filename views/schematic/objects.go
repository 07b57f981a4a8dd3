package schematic

import "spotward/views/terminal/theme"

// PrimaryMirror is the primary as seen from the sky end.
type PrimaryMirror struct {
	EdgeMM                   float64 // radius of the mirror
	WallMM                   float64 // inner radius of the tube
	RingInnerMM, RingOuterMM float64 // the centre ring
}

func (o PrimaryMirror) isEdge(rimMM float64) bool { return rimMM >= o.EdgeMM }

func (o PrimaryMirror) draw(d dial) {
	d.ring(o.EdgeMM, pen{onRings, theme.Line})
	d.ring(o.RingOuterMM, pen{onHole, theme.Label})
	d.ring(o.RingInnerMM, pen{onHole, theme.Ink})
}

// TargetPlate is the laser's face with its printed rings and the hole that the
// beam leaves by.
type TargetPlate struct {
	HoleMM     float64
	EdgeMM     float64 // radius of the face
	RingStepMM float64 // between printed rings
	RingCount  int
}

func (o TargetPlate) isEdge(rimMM float64) bool { return rimMM >= o.EdgeMM }

func (o TargetPlate) draw(d dial) {
	for k := 1; k <= o.RingCount; k += 2 {
		d.ring(float64(k)*o.RingStepMM+o.HoleMM, pen{onRings, theme.Line})
	}
	d.ring(o.HoleMM, pen{onHole, theme.Ink})
}

// ring draws a circle round the middle of the face where it lies within the
// rim.
func (d dial) ring(mm float64, p pen) {
	if r := mm * d.mm; r < d.r {
		d.dots(d.circle(r, nil), p)
	}
}
