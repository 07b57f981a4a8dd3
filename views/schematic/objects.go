package schematic

import (
	"math"

	"spotward/views/theme"
)

// Object is a thing that spots fall on, as it is seen.
type Object interface {
	draw(d dial)
	// edgeMM returns the radius of the edge that the hours are read from, mm;
	// 0 where it has none round the middle of the face.
	edgeMM() float64
}

// worded is an object with words of its own; they are written when all the
// rest is drawn.
type worded interface{ words(d dial) }

// PrimaryMirror is the primary as seen from the sky end, down the tube.
type PrimaryMirror struct {
	EdgeMM                   float64 // radius of the mirror
	WallMM                   float64 // inner radius of the tube
	RingInnerMM, RingOuterMM float64 // the centre ring; 0 = there is none
}

func (o PrimaryMirror) edgeMM() float64 { return o.EdgeMM }

func (o PrimaryMirror) draw(d dial) {
	d.ring(o.WallMM, pen{onRings, theme.Line})
	edge := d.edgeOfDots()
	d.ring(o.RingOuterMM-edge, pen{onHole, theme.Label})
	d.ring(o.RingInnerMM+edge, pen{onHole, theme.Ink})
}

// TargetPlate is the laser's face with its printed rings and the hole that the
// beam leaves by, seen from behind along the tube, or square where it is flat.
type TargetPlate struct {
	HoleMM     float64
	FaceMM     float64 // radius of the face
	RingStepMM float64 // between printed rings, as printed
	RingCount  int
	// AlongFace: the rings are circles on the slanted face, so that they are
	// seen flattened along the focuser's direction.
	AlongFace bool
	// Flat: square to the beam, and no window.
	Flat bool
	// TubeWord and AwayWord are written on the tube's side and on the other.
	TubeWord, AwayWord string
}

func (o TargetPlate) edgeMM() float64 { return o.FaceMM }

func (o TargetPlate) draw(d dial) {
	o.rings(d)
	d.ring(o.HoleMM, pen{onHole, theme.Ink})
	if edge := o.FaceMM * d.mm; edge < d.r+0.3 && !o.Flat {
		d.window(edge)
	}
}

func (o TargetPlate) words(d dial) {
	x, y := d.ray(d.focuser)
	if o.AwayWord != "" {
		d.outside(x, y, theme.Label, o.AwayWord)
	}
	if o.TubeWord != "" {
		d.outside(-x, -y, theme.Label, o.TubeWord)
	}
}

// rings draws the printed rings, which are counted outward from the rim of the
// hole, only as many as keep apart.
func (o TargetPlate) rings(d dial) {
	step := o.RingStepMM * d.mm
	if !(step > 1.0/maxSide && step < d.r) {
		return
	}
	apart := ringsApart
	if d.c.ASCII() {
		apart = cellRingsApart
	}
	every := int(math.Ceil(apart / step))
	for k := every; k <= o.RingCount; k += every {
		r := o.HoleMM*d.mm + float64(k)*step
		if r > d.r-1 {
			return
		}
		if o.AlongFace {
			x, y := d.ray(d.focuser)
			d.dots(d.ellipse(r, math.Sqrt2/2, x, y), pen{onRings, theme.Line})
			continue
		}
		d.dots(d.circle(r, 1, nil), pen{onRings, theme.Line})
	}
}

// ringsApart is how far apart rings must be to be told apart, columns: drawn
// with dots, or a whole cell at a time.
const (
	ringsApart     = 1.6
	cellRingsApart = 4.0
)

// window draws the barrel that the plate sits in: its walls on both sides, the
// cut edge of the plate on the side away from the tube, which is the one nearer
// to the eye, and on the other side the lip of the drawtube that the barrel
// goes into.
func (d dial) window(r float64) {
	x, y := d.ray(d.focuser)
	p := pen{onRings, theme.Line}
	if !d.c.ASCII() { // too fine for half cells
		f := d.frame
		f.x0, f.y0 = f.point(x*cutEdge, y*cutEdge)
		d.dots(f.circle(r, 1, func(theta float64) bool {
			s, c := math.Sincos(theta)
			return s*x+c*y > 0.5
		}), p)
	}
	out := r + barrelWall
	half := math.Sqrt(math.Max(0, sq(d.r-0.5)-sq(out)))
	if half < 2 {
		return
	}
	d.chord(y, -x, out, half, p)
	d.chord(-y, x, out, half, p)
	d.chord(-x, -y, out, half, p)
}

// chord draws a line across direction (x, y), out columns from the middle and
// half columns to each side.
func (d dial) chord(x, y, out, half float64, p pen) {
	d.dots(d.line(x*out-y*half, y*out+x*half, x*out+y*half, y*out-x*half), p)
}

// How thick the plate's cut edge and the barrel's wall are drawn, columns.
const (
	cutEdge    = 0.9
	barrelWall = 1.3
)

// ring draws a circle round the middle of the face where it lies within the
// rim.
// edgeOfDots is how far the edge of a dot is from its middle, mm. One measures by
// the centre ring: small as it is drawn, it must be as wide from the edges of its
// dots as the ring is from its own.
func (d dial) edgeOfDots() float64 {
	if d.c.ASCII() {
		return 0
	}
	const part = 0.3 // of the way from dot to dot
	return part / d.sx / d.mm
}

func (d dial) ring(mm float64, p pen) {
	if r := mm * d.mm; r > 0 && r <= d.r+0.3 {
		d.dots(d.circle(r, 1, nil), p)
	}
}
