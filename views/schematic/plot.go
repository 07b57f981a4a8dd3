package schematic

import (
	"math"
	"strconv"

	"spotward/views/terminal/theme"
)

// PlotSpec is a length that changes from look to look, or from day to day,
// against what is allowed of it. Going up by the same factor is the same way
// up everywhere, since a first look may be a hundred times as far out as the
// last.
type PlotSpec struct {
	From, To         float64 // what the left and the right edge stand for
	FromWord, ToWord string  // below them
	AllowedMM        float64
	AllowedWord      string // right of its line
	Unit             string // of the figures at the left; "" = mm
	EarlyWord        string // where much is empty before the first point
	Lines            []PlotLine
}

// PlotLine is what belongs together: joined in the order of its points.
type PlotLine struct {
	Points []PlotPoint
	Dotted bool   // drawn fainter than one that is not
	Word   string // beside its last point
}

// PlotPoint is one value. X is in the unit of From and To.
type PlotPoint struct {
	X, MM  float64
	Hollow bool
	Apart  bool // not joined to the one before
	Beyond bool // more than was seen: a wedge at the top
}

// Sizes of a plot's marks, columns, and the columns left of it.
const (
	plotMark   = 1.05
	plotGutter = 7
	dottedStep = 3 // dots
)

// Plot draws s in r. The lowest row is for the words below it.
func (c *Canvas) Plot(r Rect, s PlotSpec) {
	margin := max(Width(s.AllowedWord), s.wordsWide()) + 2
	g := plotGrid{c: c, spec: s, in: Rect{r.X + plotGutter, r.Y, r.W - plotGutter - margin, r.H - 1}}
	if g.in.W < 8 || g.in.H < 2 || !(s.AllowedMM > 0 && s.AllowedMM < mostPlotted) || !(s.To >= s.From) {
		return
	}
	g.low, g.high = s.span()
	g.axis()
	g.allowed(r.X + r.W)
	for _, l := range s.Lines {
		g.joined(l)
	}
	for _, l := range s.Lines {
		g.points(l)
	}
	for _, l := range s.Lines {
		g.word(l)
	}
	g.early()
	c.TextMax(g.in.X, r.Y+r.H-1, g.in.W, theme.Label, s.FromWord)
	if Width(s.FromWord)+Width(s.ToWord)+2 <= g.in.W+2 {
		c.TextRight(g.in.X+g.in.W+1, r.Y+r.H-1, theme.Label, s.ToWord)
	}
}

func (s PlotSpec) wordsWide() int {
	wide := 0
	for _, l := range s.Lines {
		wide = max(wide, Width(l.Word))
	}
	return wide
}

// mostPlotted is more than any telescope is out by, mm.
const mostPlotted = 1e4

// lowest is the part of what is allowed below which nothing is told apart.
const lowest = 0.2

// span returns what the bottom and the top of the plot stand for.
func (s PlotSpec) span() (low, high float64) {
	low, high = s.AllowedMM*0.6, s.AllowedMM*2
	for _, l := range s.Lines {
		for _, p := range l.Points {
			if p.drawable() && !p.Beyond {
				low, high = math.Min(low, p.MM*0.8), math.Max(high, p.MM*1.15)
			}
		}
	}
	return math.Max(low, lowest*s.AllowedMM), high
}

func (p PlotPoint) drawable() bool {
	return p.MM >= 0 && p.MM < mostPlotted && !math.IsNaN(p.X) && !math.IsInf(p.X, 0)
}

// plotGrid is where values lie on the canvas.
type plotGrid struct {
	c         *Canvas
	spec      PlotSpec
	in        Rect
	low, high float64
}

// at returns the dot of a value, and false where it has none.
func (g plotGrid) at(p PlotPoint) (dot, bool) {
	if !p.drawable() {
		return dot{}, false
	}
	part := 0.5
	if g.spec.To > g.spec.From {
		part = (p.X - g.spec.From) / (g.spec.To - g.spec.From)
	}
	if part < 0 || part > 1 {
		return dot{}, false
	}
	// A mark at either edge is whole.
	w := g.c.set.wide
	at := dot{w*g.in.X + w + round(part*float64(w*g.in.W-2*w-1)), g.down(p.MM)}
	if p.Beyond {
		at.j = g.c.set.high * g.in.Y
		if g.c.set.high > 1 {
			at.j++
		}
	}
	return at, true
}

// down returns the row of dots of a value: so that a mark at the top or the
// bottom is whole.
func (g plotGrid) down(mm float64) int {
	h := g.c.set.high
	margin := h / 2
	part := math.Log(math.Max(mm, g.low)/g.low) / math.Log(g.high/g.low)
	return h*g.in.Y + margin + round((1-math.Min(part, 1))*float64(h*g.in.H-1-2*margin))
}

// row returns the row of a value.
func (g plotGrid) row(mm float64) int { return g.down(mm) / g.c.set.high }

// axis draws the left edge with figures where they have room.
func (g plotGrid) axis() {
	w, h := g.c.set.wide, g.c.set.high
	for j := range h * g.in.H {
		g.c.dot(dot{w*g.in.X - 1, h*g.in.Y + j}, pen{onRings, theme.Line})
	}
	taken := map[int]bool{}
	for _, mm := range ticks(g.low, g.high) {
		row := g.row(mm)
		if taken[row-1] || taken[row] || taken[row+1] {
			continue
		}
		text := strconv.FormatFloat(mm, 'g', -1, 64)
		if len(taken) == 0 && Width(text+g.unit()) < plotGutter {
			text += g.unit()
		}
		taken[row] = true
		g.c.TextRight(g.in.X-1, row, theme.Label, text)
	}
}

// unit is what the first figure at the left is in.
func (g plotGrid) unit() string {
	if g.spec.Unit == "" {
		return " mm"
	}
	return g.spec.Unit
}

// ticks returns 1, 2 and 5 and their tens, from the top down, tens first.
func ticks(low, high float64) []float64 {
	var tens, others []float64
	for e := math.Floor(math.Log10(low)); e <= math.Ceil(math.Log10(high)); e++ {
		for _, k := range []float64{1, 2, 5} {
			// By its text: 5e-1 is not 5 times 10 to the -1.
			v, _ := strconv.ParseFloat(strconv.FormatFloat(k, 'f', 0, 64)+"e"+strconv.FormatFloat(e, 'f', 0, 64), 64)
			if v < low || v > high {
				continue
			}
			if k == 1 {
				tens = append([]float64{v}, tens...)
			} else {
				others = append([]float64{v}, others...)
			}
		}
	}
	return append(tens, others...)
}

// allowed draws the line that is to be reached.
func (g plotGrid) allowed(end int) {
	w, h := g.c.set.wide, g.c.set.high
	j := g.down(g.spec.AllowedMM)
	for i := w * g.in.X; i < w*(g.in.X+g.in.W); i++ {
		g.c.dot(dot{i, j}, pen{onRim, theme.Label})
	}
	g.c.TextMax(g.in.X+g.in.W+1, j/h, end-g.in.X-g.in.W-1, theme.Label, g.spec.AllowedWord)
}

// joined draws the way from point to point.
func (g plotGrid) joined(l PlotLine) {
	dots := frame{c: g.c, sx: 1, sy: -1} // counted in dots, downward
	for k := 1; k < len(l.Points); k++ {
		from, okFrom := g.at(l.Points[k-1])
		to, okTo := g.at(l.Points[k])
		if !okFrom || !okTo || l.Points[k].Apart {
			continue
		}
		for n, d := range dots.line(float64(from.i), float64(from.j), float64(to.i), float64(to.j)) {
			if !l.Dotted || n%dottedStep == 0 {
				g.c.dot(d, pen{onHole, theme.Trail})
			}
		}
	}
}

func (g plotGrid) points(l PlotLine) {
	for _, p := range l.Points {
		if at, ok := g.at(p); ok {
			g.point(at, p)
		}
	}
}

// point draws one mark and clears what lies below it.
func (g plotGrid) point(at dot, p PlotPoint) {
	role := theme.Ink
	if p.MM <= g.spec.AllowedMM && !p.Beyond {
		role = theme.Good
	}
	if g.c.ASCII() {
		g.c.put(floorDiv(at.i, g.c.set.wide), floorDiv(at.j, g.c.set.high), p.letter(), 1, role)
		return
	}
	f := g.c.frameAt(0, 0)
	f.x0, f.y0 = float64(at.i), float64(at.j)
	whole := func(x, y float64) bool { return math.Hypot(x, y) <= plotMark }
	for _, d := range f.fill(plotMark, whole) {
		g.c.clearBelow(d, onSpot)
	}
	in := whole
	switch {
	case p.Beyond:
		in = func(x, y float64) bool { return y >= -0.55 && y <= 0.55 && math.Abs(x) <= 0.75-y }
	case p.Hollow:
		in = func(x, y float64) bool { return whole(x, y) && math.Hypot(x, y) > plotMark-0.5 }
	}
	f.dots(f.fill(2, in), pen{onSpot, role})
}

func (p PlotPoint) letter() string {
	switch {
	case p.Beyond:
		return "^"
	case p.Hollow:
		return "o"
	}
	return "*"
}

// early says why there is nothing at first, above what is allowed.
func (g plotGrid) early() {
	first := g.in.X + g.in.W
	for _, l := range g.spec.Lines {
		for _, p := range l.Points {
			if at, ok := g.at(p); ok {
				first = min(first, at.i/g.c.set.wide)
			}
		}
	}
	row := g.in.Y + 1
	if first-g.in.X > Width(g.spec.EarlyWord)+4 && row < g.row(g.spec.AllowedMM) {
		g.c.Text(g.in.X+2, row, theme.Label, g.spec.EarlyWord)
	}
}

// word writes what a line is beside its last point: above or below the row of
// what is allowed, which has its own.
func (g plotGrid) word(l PlotLine) {
	if l.Word == "" || len(l.Points) == 0 {
		return
	}
	at, ok := g.at(l.Points[len(l.Points)-1])
	if !ok {
		return
	}
	row, col := at.j/g.c.set.high, at.i/g.c.set.wide+3
	for _, y := range []int{row, row - 1, row + 1, row - 2, row + 2} {
		free := y >= g.in.Y && y < g.in.Y+g.in.H
		for x := col - 1; x <= col+Width(l.Word) && free; x++ {
			at := g.c.at(x, y)
			free = at != nil && at.text == "" && !at.any(onTrail)
		}
		if free {
			g.c.Text(col, y, theme.Ink, l.Word)
			return
		}
	}
}

// Spark draws values in a row, a column each: one dot high is within what is
// allowed of it, which is 1, and each dot more is twice as much again. Below 0
// is a value that is not known: a faint dot. Where there are not four dots to a
// cell it is figures, 9 for 9 and more.
func (c *Canvas) Spark(col, row int, values []float64) {
	for n, v := range values {
		if !(v >= 0) {
			if c.set.high < 4 {
				c.put(col+n, row, "-", 1, theme.Line)
			} else {
				c.dot(dot{c.set.wide * (col + n), c.set.high*row + c.set.high - 1}, pen{onTrail, theme.Line})
			}
			continue
		}
		role := theme.Ink
		if v <= 1 {
			role = theme.Good
		}
		if c.set.high < 4 {
			c.put(col+n, row, strconv.Itoa(int(math.Min(math.Ceil(v), 9))), 1, role)
			continue
		}
		for k := range sparkDots(v) {
			for i := range c.set.wide {
				c.dot(dot{c.set.wide*(col+n) + i, c.set.high*row + c.set.high - 1 - k}, pen{onTrail, role})
			}
		}
	}
}

// sparkDots is how high a value stands, 1 to 4.
func sparkDots(v float64) int {
	dots := 1
	for most := 1.; v > most && dots < 4; most *= 2 {
		dots++
	}
	return dots
}
