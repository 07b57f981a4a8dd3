package schematic

import (
	"math"
	"strconv"

	"spotward/views/theme"
)

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
