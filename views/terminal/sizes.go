package terminal

import "spotward/views/schematic"

// The smallest terminal that is drawn for. People enlarge the letters until
// this is what is left.
const (
	leastCols = 60
	leastRows = 18
)

// sizes is where things stand on a terminal of one size: the grid of the
// drawings, and the text around them.
type sizes struct {
	schematic.Grid
	name   schematic.Rect
	rail   schematic.Rect
	facts  []schematic.Rect // one row: in brief; two: in full
	column schematic.Rect   // text beside the face
	body   schematic.Rect   // all between the heading and the rule
}

// sizesFor lays out a terminal; it reports false where it is too small.
func sizesFor(cols, rows int, large, ascii bool) (sizes, bool) {
	g, ok := schematic.GridFor(cols, rows, large)
	if !ok {
		return sizes{}, false
	}
	if ascii {
		g = g.ForASCII()
	}
	s := sizes{Grid: g, name: g.Name, rail: g.Rail, facts: []schematic.Rect{g.Facts}}
	if g.FaceWords.Y >= 3 { // the rail beside the name leaves two rows for the facts
		s.name.W = 20
		s.rail = schematic.Rect{X: 22, Y: 0, W: cols - 23, H: 1}
		s.facts = []schematic.Rect{{X: 1, Y: 1, W: cols - 2, H: 1}, {X: 1, Y: 2, W: cols - 2, H: 1}}
	}
	if free := g.Rule.Y - 1 - g.Why.Y; g.Why.W > 0 && free > g.Why.H && free < 3 {
		s.Why.H = free
	}
	last := s.facts[len(s.facts)-1]
	x := g.FaceWords.X + g.FaceWords.W + 1
	switch { // the drawing beside the words needs a column more for its 9
	case cols < 70:
		x += 2
	case !s.roomy():
		x++
	}
	s.column = schematic.Rect{X: x, Y: last.Y + 1, W: cols - 1 - x, H: g.Rule.Y - last.Y - 1}
	s.body = schematic.Rect{X: 1, Y: last.Y + 1, W: cols - 2, H: g.Rule.Y - last.Y - 1}
	return s, true
}

// narrow reports whether words must be kept short.
func (s sizes) narrow() bool { return s.Cols < 70 }

// roomy reports whether everything stands side by side.
func (s sizes) roomy() bool { return s.Plate.W > 0 }
