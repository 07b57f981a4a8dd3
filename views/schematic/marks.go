package schematic

import (
	"math"

	"spotward/optics"
	"spotward/views/theme"
)

// Sizes of marks and distances on the way, in half columns at scale 1; at bold
// and larger, strokes are two dots wide.
const (
	spotRadius = 3.2
	cueReach   = 2.0
	legStep    = 2.9
	secondStep = 3.2
	trailStep  = 5.0
	arrowStep  = 6.0
	bold       = 1.6
)

// blockHalf is half a side of a block on the trail, columns.
const blockHalf = 0.55

// shape is how a kind of mark is drawn.
type shape struct {
	pen    pen
	letter string // where there are no dots to draw it with
	// in says where it has dots: offsets in columns from its middle, and the
	// radius of a spot there.
	in func(d dial, x, y, r float64) bool
}

func spotShape() shape { return shape{pen{onSpot, theme.Light}, "@", dial.disc} }

// returnShape is a spot that came back, beside the one that went out.
func returnShape() shape { return shape{pen{onSpot, theme.Light}, "O", dial.thick} }

func ghostShape() shape { return shape{pen{onGhost, theme.You}, "o", dial.hollow} }
func cueShape() shape   { return shape{pen{onCue, theme.Act}, "X", dial.cross} }
func callShape() shape  { return shape{pen{onGhost, theme.You}, "o", dial.block} }
func trailShape() shape { return shape{pen{onTrail, theme.Trail}, "*", dial.block} }

// marks draws all marks, those below first.
func (d dial) marks(s FaceSpec) {
	d.trail(s)
	for _, l := range s.Legs {
		d.leg(l)
	}
	now, cue := spotShape(), cueShape()
	if _, two := s.Object.(SecondaryMirror); two {
		now = returnShape()
	}
	if d.overlap(s.Now, s.Cue) { // the cue is never hidden: the spot is drawn round it
		now.in, cue.pen.on = dial.around, onTop
	}
	if cue.pen.on != onTop {
		d.mark(s.Cue, cue)
	}
	d.mark(s.Ghost, ghostShape())
	d.mark(s.Now, now)
	if cue.pen.on == onTop {
		d.mark(s.Cue, cue)
	}
}

// overlap reports whether spot and cue would run into each other.
func (d dial) overlap(now, cue *Mark) bool {
	if now == nil || cue == nil || !finite(now.At) || !finite(cue.At) || d.beyond(now.At) || d.beyond(cue.At) {
		return false
	}
	x0, y0 := d.at(now.At)
	x1, y1 := d.at(cue.At)
	return math.Hypot(x1-x0, y1-y0) < d.apartCols()
}

// apartCols is how far apart spot and cue must be to be told apart, columns.
func (d dial) apartCols() float64 { return (spotRadius+cueReach)/2*d.size + 0.5 }

// Apart is how many mm spot and cue must be apart at the least, to be told apart
// in a drawing whose rim of radius r columns stands for rimMM.
func Apart(r, rimMM, markScale float64) float64 {
	d := dial{r: r, mm: r / rimMM, size: math.Max(1, math.Min(markScale, 2))}
	return d.apartCols() / d.mm
}

// mark draws one mark; beyond the rim, a wedge there that points to it.
func (d dial) mark(m *Mark, s shape) {
	if m == nil || !finite(m.At) {
		return
	}
	if d.c.ASCII() {
		col, row := d.shownAt(m.At)
		d.c.put(col, row, s.letter, 1, s.pen.role)
		return
	}
	if d.beyond(m.At) {
		d.frame.mark(d.fill(d.r+2, d.wedge(m.At)), s.pen)
		return
	}
	f := d.settled(m.At)
	r := f.spotRadius(d.size)
	reach := aroundPart*r + 1
	if s.pen.on == onTop { // what is under it shows beside it
		f.dots(f.fill(reach, func(x, y float64) bool { return s.in(d, x, y, r) }), s.pen)
		return
	}
	// Nothing shows through a mark, not even through a hollow one.
	for _, at := range f.fill(reach, func(x, y float64) bool { return d.disc(x, y, r) && s.pen.on > onCue }) {
		f.c.clearBelow(at, s.pen.on)
	}
	f.mark(f.fill(reach, func(x, y float64) bool { return s.in(d, x, y, r) }), s.pen)
}

// settled returns a frame that measures from the dot nearest to a point of the
// face. The middle of the dial, which lies between dots, stays where it is.
func (d dial) settled(p optics.Dial) frame {
	f := d.frame
	i, j := f.point(d.at(p))
	if math.Abs(i-d.x0) < 0.3 && math.Abs(j-d.y0) < 0.3 {
		return f
	}
	f.x0, f.y0 = float64(round(i)), float64(round(j))
	return f
}

// spotRadius returns the radius of a spot in columns, so chosen that its four
// ends are flat and a disc is round whether its middle is a dot or lies between.
func (f frame) spotRadius(size float64) float64 {
	const flat = 0.45
	return (snap(spotRadius*size-flat, frac(f.x0)) + flat) / 2
}

func finite(p optics.Dial) bool {
	return !math.IsNaN(p.Len()) && !math.IsInf(p.Len(), 0)
}

// beyond reports whether a point lies outside the rim.
func (d dial) beyond(p optics.Dial) bool { return p.Len()*d.mm > d.r+0.3 }

// shownAt returns the cell a mark is drawn in: its own, or at the rim where the
// drawing ends before it.
func (d dial) shownAt(p optics.Dial) (col, row int) {
	x, y := d.at(p)
	if d.beyond(p) {
		k := d.r / math.Hypot(x, y)
		x, y = k*x, k*y
	}
	return d.cell(x, y)
}

// block, disc, hollow and cross are the shapes of marks.
func (d dial) block(x, y, _ float64) bool {
	return math.Max(math.Abs(x), math.Abs(y)) <= blockHalf*d.size
}

func (d dial) disc(x, y, r float64) bool { return math.Hypot(x, y) <= r }

func (d dial) hollow(x, y, r float64) bool {
	wide := 0.5
	if d.size >= bold {
		wide = 1
	}
	return d.disc(x, y, r) && !d.disc(x, y, r-wide)
}

// around is a spot that the cue lies on: a ring about it.
func (d dial) around(x, y, r float64) bool {
	r *= aroundPart
	return d.disc(x, y, r) && !d.disc(x, y, r-math.Max(0.5, 0.4*d.size))
}

// aroundPart is how much larger a spot is drawn that the cue lies on.
const aroundPart = 1.35

func (d dial) thick(x, y, r float64) bool { return d.disc(x, y, r) && !d.disc(x, y, r-0.9) }

func (d dial) cross(x, y, _ float64) bool {
	x, y = math.Abs(x), math.Abs(y)
	wide := 0.2
	if d.size >= bold {
		wide = 0.6
	}
	return math.Max(x, y) <= cueReach*d.size/2+0.3 && math.Abs(x-y) < wide
}

// wedge is a head on the rim that points outward to p, offsets from the middle
// of the dial.
func (d dial) wedge(p optics.Dial) func(x, y float64) bool {
	px, py := d.at(p)
	n := math.Hypot(px, py)
	px, py = px/n, py/n
	long := spotRadius * d.size / 2 * 1.5
	return func(x, y float64) bool {
		out, across := d.r+0.5-(x*px+y*py), math.Abs(x*py-y*px)
		return out >= 0 && out <= long && across <= out*0.6+0.2
	}
}

// trail draws where the spot was, a block a look, and the way between.
func (d dial) trail(s FaceSpec) {
	p := pen{onTrail, theme.Trail}
	for i, m := range s.Trail {
		if !finite(m.At) || d.beyond(m.At) {
			continue
		}
		next := s.Now
		if s.Onward {
			next = nil
		}
		if i+1 < len(s.Trail) {
			next = &s.Trail[i+1]
		}
		if i == 0 && s.Onward && s.Now != nil && finite(s.Now.At) {
			d.stretch(s.Now.At, m.At, trailStep, func(x, y float64) { d.c.dot(d.nearest(x, y), p) })
		}
		if next != nil && finite(next.At) {
			d.stretch(m.At, next.At, trailStep, func(x, y float64) { d.c.dot(d.nearest(x, y), p) })
		}
	}
	for i := range s.Calls {
		if !d.beyond(s.Calls[i].At) {
			d.mark(&s.Calls[i], callShape())
		}
	}
	for i := range s.Trail {
		if !d.beyond(s.Trail[i].At) {
			d.mark(&s.Trail[i], trailShape())
		}
	}
}

// leg draws the way to a cue, or on from there: dots, or arrow heads where
// there are only letters.
func (d dial) leg(l Leg) {
	p, step := pen{onPath, theme.Act}, legStep
	if l.Second {
		p, step = pen{onPath, theme.Act2}, secondStep
	}
	if d.c.ASCII() {
		head := d.arrow(l)
		d.stretch(l.From, l.To, arrowStep, func(x, y float64) {
			if col, row := d.cell(x, y); d.free(Rect{col, row, 1, 1}, holdsMark) {
				d.c.put(col, row, head, 1, p.role)
			}
		})
		return
	}
	d.stretch(l.From, l.To, step*math.Max(1, d.size/1.25), func(x, y float64) {
		if math.Hypot(x, y) > d.r-0.5 {
			return
		}
		f := d.frame
		f.x0, f.y0 = f.point(x, y)
		if d.size < bold {
			f.x0, f.y0 = float64(round(f.x0)), float64(round(f.y0))
		} else {
			f.x0, f.y0 = math.Floor(f.x0)+0.5, math.Floor(f.y0)+0.5
		}
		f.mark(f.fill(1, func(x, y float64) bool { return math.Hypot(x, y) < 0.45 }), p)
	})
}

// stretch calls at for points from one end to the other, step half columns
// apart, without the ends.
func (d dial) stretch(from, to optics.Dial, step float64, at func(x, y float64)) {
	if !finite(from) || !finite(to) {
		return
	}
	x0, y0 := d.at(from)
	x1, y1 := d.at(to)
	long := 2 * math.Hypot(x1-x0, y1-y0)
	if !(long < maxDots) {
		return
	}
	for s := step; s < long; s += step {
		at(x0+s/long*(x1-x0), y0+s/long*(y1-y0))
	}
}

// arrow returns the head that points along a leg on the screen.
func (d dial) arrow(l Leg) string {
	return headToward(d.at(optics.Dial{Right: l.To.Right - l.From.Right, Up: l.To.Up - l.From.Up}))
}
