package schematic

import (
	"math"

	"spotward/optics"
	"spotward/views/theme"
)

// SecondaryMirror is the secondary as it is seen in the primary from the sky
// end. The middle of the face is the outgoing spot, wherever that is on it.
type SecondaryMirror struct {
	EdgeMM  float64     // radius as seen along the tube: half the minor axis
	Middle  optics.Dial // of the mirror, from the outgoing spot
	OutWord string      // beside the outgoing spot
}

func (o SecondaryMirror) edgeMM() float64 {
	if o.Middle == (optics.Dial{}) {
		return o.EdgeMM
	}
	return 0
}

func (o SecondaryMirror) draw(d dial) {
	if o.edgeMM() == 0 && finite(o.Middle) {
		f := d.settled(o.Middle)
		for _, at := range f.circle(o.EdgeMM*d.mm, 1, nil) {
			if d.half(float64(at.i)-d.x0, float64(at.j)-d.y0) < 2*d.r-2 {
				d.c.dot(at, pen{onRim, theme.Label})
			}
		}
	}
	s := spotShape()
	s.pen.on = onCue
	d.mark(&Mark{}, s)
}

func (o SecondaryMirror) words(d dial) {
	d.beside(&Mark{Word: o.OutWord}, theme.Light, d.spotRadius(d.size), Rect{}, above, left, below, right)
}

// Mouth is the drawtube's mouth as seen from inside the tube, with the laser in
// it.
type Mouth struct {
	MouthMM  float64 // inner radius of the drawtube
	LipMM    float64 // outer radius of the drawtube; 0 = not drawn
	BarrelMM float64 // radius of the laser's barrel
	HoleMM   float64 // radius of the target hole
}

func (o Mouth) edgeMM() float64 { return o.MouthMM }

func (o Mouth) draw(d dial) {
	d.ring(o.LipMM, pen{onRings, theme.Line})
	d.ring(o.BarrelMM, pen{onRings, theme.Line})
	d.ring(o.HoleMM, pen{onHole, theme.Ink})
}

// OpenEnd is the open end of the tube with a card over it.
type OpenEnd struct {
	TubeMM      float64 // inner radius of the tube
	SecondaryMM float64 // radius of the secondary's holder; 0 = not drawn
	// Card covers the whole end, or the half round CoverHour.
	Card      Cover
	CoverHour float64
	// LookWord is written where one may look in: in the open half.
	LookWord string
}

// Cover is how much of the open end a card covers.
type Cover uint8

// No card, a card over half, a card over the whole end.
const (
	CoverNone Cover = iota
	CoverHalf
	CoverWhole
)

func (o OpenEnd) edgeMM() float64 { return o.TubeMM }

func (o OpenEnd) draw(d dial) {
	r := math.Min(o.TubeMM*d.mm, d.r)
	d.ring(o.SecondaryMM, pen{onRings, theme.Line})
	if o.Card == CoverNone {
		return
	}
	x, y := d.ray(o.CoverHour)
	whole := o.Card == CoverWhole
	d.dots(d.hatch(r-1, func(u, v float64) bool { return whole || u*x+v*y > 0.5 }), pen{onRings, theme.Line})
	if whole {
		return
	}
	d.chord(x, y, 0, r-1, pen{onHole, theme.Ink})
}

func (o OpenEnd) words(d dial) {
	if o.LookWord != "" {
		x, y := d.ray(o.CoverHour)
		r := 0.6 * math.Min(o.TubeMM*d.mm, d.r)
		d.nearestFree(-x*r, -y*r, 0, theme.Ink, o.LookWord)
	}
}

// hatch returns a sparse grid of dots inside radius r where in holds, the same
// on all four sides of the middle.
func (d dial) hatch(r float64, in func(x, y float64) bool) []dot {
	apart := 1.5 // columns
	if d.c.ASCII() {
		apart = 3
	}
	return d.fill(r, func(x, y float64) bool {
		return math.Hypot(x, y) <= r && onGrid(x, apart, d.sx) && onGrid(y, apart, d.sy) && in(x, y)
	})
}

// onGrid reports whether the dot at v columns is the one nearest to a line of a
// grid; a column has s dots.
func onGrid(v, apart, s float64) bool {
	v = math.Mod(math.Abs(v), apart)
	return v < 1/s
}

// TubeEnd is an end of the tube before anything is looked at in it: what one
// agrees to when one has walked there.
type TubeEnd struct {
	WallMM   float64 // inner radius of the tube
	MiddleMM float64 // radius of what stands in the middle; 0 = nothing
	// VaneHours are where the spider's vanes stand.
	VaneHours []float64
}

func (o TubeEnd) edgeMM() float64 { return o.WallMM }

func (o TubeEnd) draw(d dial) {
	d.ring(o.MiddleMM, pen{onRings, theme.Label})
	for _, hour := range o.VaneHours {
		x, y := d.ray(hour)
		in, out := o.MiddleMM*d.mm, math.Min(o.WallMM*d.mm, d.r)-3
		d.dots(d.line(x*in, y*in, x*out, y*out), pen{onRings, theme.Line})
	}
}
