package schematic

import (
	"math"
	"strconv"

	"spotward/views/theme"
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
