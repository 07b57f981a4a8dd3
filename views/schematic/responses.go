package schematic

import (
	"math"

	"spotward/optics"
	"spotward/views/theme"
)

// Responses is what was learnt of the screws: where a whole turn of each would
// take the spot from the middle. The rim stands for mm a turn.
type Responses struct {
	Arrows []Arrow
}

// Arrow is what one turn of a screw does.
type Arrow struct {
	Label   string
	To      optics.Dial // mm a turn
	SigmaMM float64     // how well that is known, 1σ a turn; 0 draws no spread
	// Act marks the one that is asked for now.
	Act bool
}

// leastSpread is the smallest spread that shows beside an arrow's head, columns.
const leastSpread = 1.75

func (o Responses) edgeMM() float64 { return 0 }

func (o Responses) draw(d dial) {
	for _, a := range o.Arrows {
		if !finite(a.To) || d.beyond(a.To) {
			continue
		}
		if r := a.SigmaMM * d.mm; r > leastSpread && r < d.r {
			d.dots(d.settled(a.To).circle(r, 2, nil), pen{onRings, theme.Line})
		}
	}
	for _, a := range o.Arrows {
		if finite(a.To) && a.To.Len() > 0 {
			d.arrowTo(a)
		}
	}
}

// arrowTo draws a line from the middle with a head at its end, cut at the rim.
func (d dial) arrowTo(a Arrow) {
	x, y := d.at(a.To)
	n := math.Hypot(x, y)
	end := math.Min(n, d.r-0.5)
	x, y = x/n, y/n
	p := pen{onHole, theme.Label}
	if a.Act {
		p = pen{onPath, theme.Act}
	}
	d.dots(d.line(0, 0, x*end, y*end), p)
	if d.c.ASCII() {
		col, row := d.cell(x*end, y*end)
		d.c.put(col, row, headToward(x, y), 1, p.role)
		return
	}
	const long, wide = 2.0, 0.55 // columns; half width over length
	d.dots(d.fill(end+1, func(u, v float64) bool {
		back, across := end-(u*x+v*y), math.Abs(u*y-v*x)
		return back >= 0 && back <= long && across <= back*wide
	}), p)
}

func (o Responses) words(d dial) {
	for _, a := range o.Arrows {
		role := theme.Ink
		if a.Act {
			role = theme.Act
		}
		if a.Label != "" && finite(a.To) {
			x, y := d.at(a.To)
			n := math.Max(math.Hypot(x, y), 1e-9)
			out := math.Min(n, d.r) + 1
			d.nearestFree(x/n*out, y/n*out, 0, role, a.Label)
		}
	}
}
