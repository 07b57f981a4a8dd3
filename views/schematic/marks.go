package schematic

import (
	"math"

	"spotward/optics"
	"spotward/views/terminal/theme"
)

// Sizes of marks, in half columns at scale 1.
const (
	spotRadius = 3.2
	cueReach   = 2.0
)

// marks draws all marks, those below first.
func (d dial) marks(s FaceSpec) {
	for _, m := range s.Trail {
		d.block(m.At)
	}
	for _, l := range s.Legs {
		d.leg(l)
	}
	if s.Cue != nil {
		d.cross(s.Cue.At)
	}
	if s.Ghost != nil {
		d.hollow(s.Ghost.At)
	}
	if s.Now != nil {
		d.disc(s.Now.At)
	}
}

func (d dial) disc(p optics.Dial) {
	f := d.near(p)
	f.mark(f.fill(d.markReach(), d.round(spotRadius)), pen{onSpot, theme.Light})
}

func (d dial) hollow(p optics.Dial) {
	f := d.near(p)
	outer, inner := d.round(spotRadius), d.round(spotRadius-1)
	f.mark(f.fill(d.markReach(), func(x, y float64) bool {
		return outer(x, y) && !inner(x, y)
	}), pen{onGhost, theme.You})
}

func (d dial) cross(p optics.Dial) {
	f := d.near(p)
	reach := cueReach * d.size / 2
	f.mark(f.fill(d.markReach(), func(x, y float64) bool {
		x, y = math.Abs(x), math.Abs(y)
		return x <= reach+0.1 && math.Abs(x-y) < 0.2
	}), pen{onCue, theme.Act})
}

func (d dial) block(p optics.Dial) {
	f := d.near(p)
	half := 0.6 * d.size
	f.mark(f.fill(d.markReach(), func(x, y float64) bool {
		return math.Abs(x) <= half && math.Abs(y) <= half
	}), pen{onTrail, theme.Trail})
}

func (d dial) leg(l Leg) {
	p, step := pen{onPath, theme.Act}, 2.9
	if l.Second {
		p, step = pen{onPath, theme.Act2}, 3.2
	}
	x0, y0 := d.at(l.From)
	x1, y1 := d.at(l.To)
	n := int(2 * math.Hypot(x1-x0, y1-y0) / step)
	for k := 1; k <= n; k++ {
		t := float64(k) * step / (2 * math.Hypot(x1-x0, y1-y0))
		f := d.frame
		f.mark([]dot{f.nearest(x0+t*(x1-x0), y0+t*(y1-y0))}, p)
	}
}

// round returns the disc of that radius in half columns.
func (d dial) round(radius float64) func(x, y float64) bool {
	r := radius * d.size / 2
	return func(x, y float64) bool { return sq(x)+sq(y) <= sq(r) }
}

func (d dial) markReach() float64 { return (spotRadius + 1) * d.size / 2 }

// words writes the words beside the marks.
func (d dial) words(s FaceSpec) {
	d.word(s.Now, theme.Light)
	d.word(s.Cue, theme.Act)
	d.word(s.Ghost, theme.You)
}

func (d dial) word(m *Mark, role theme.Role) {
	if m == nil || m.Word == "" {
		return
	}
	x, y := d.at(m.At)
	col, row := d.cell(x+2+d.size, y)
	d.c.Text(col, row, role, m.Word)
}
