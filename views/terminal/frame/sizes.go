package frame

import (
	"spotward/views/schematic"
)

// The smallest terminal that is drawn for. People enlarge the letters until
// this is what is left.
const (
	LeastCols = 60
	LeastRows = 18
)

// Sizes is where things stand on a terminal of one size: the grid of the
// drawings, and the text around them.
type Sizes struct {
	schematic.Grid
	Name   schematic.Rect
	RailAt schematic.Rect
	Facts  []schematic.Rect // one row: in brief; two: in full
	// FactCols are where the facts of a row begin: the same on every screen of
	// a size, so that the eye finds them.
	FactCols []int
	Column   schematic.Rect  // text beside the face
	Yours    schematic.Place // one's own drawing, beside what one sees
	Body     schematic.Rect  // all between the heading and the rule
}

// SizesFor lays out a terminal; it reports false where it is too small.
func SizesFor(cols, rows int, large, ascii bool) (Sizes, bool) {
	g, ok := schematic.GridFor(cols, rows, large)
	if !ok {
		return Sizes{}, false
	}
	if ascii {
		g = g.ForASCII()
	}
	s := Sizes{Grid: g, Name: g.Name, RailAt: g.Rail, Facts: []schematic.Rect{g.Facts}}
	if g.FaceWords.Y >= 3 { // the rail beside the name leaves two rows for the facts
		s.Name.W = 20
		s.RailAt = schematic.Rect{X: 22, Y: 0, W: cols - 23, H: 1}
		s.Facts = []schematic.Rect{{X: 1, Y: 1, W: cols - 2, H: 1}, {X: 1, Y: 2, W: cols - 2, H: 1}}
		s.FactCols = []int{1, 41}
	} else if cols >= 100 {
		s.FactCols = []int{1, 31, 62, 90}
	} else {
		s.FactCols = []int{1, 18, 33}
	}
	if free := g.Rule.Y - 1 - g.Why.Y; g.Why.W > 0 && free > g.Why.H && free < 3 {
		s.Why.H = free
	}
	last := s.Facts[len(s.Facts)-1]
	x := g.FaceWords.X + g.FaceWords.W + 1
	switch { // the drawing beside the words needs a column more for its 9
	case cols < 70:
		x += 2
	case !s.Roomy():
		x++
	}
	s.Column = schematic.Rect{X: x, Y: last.Y + 1, W: cols - 1 - x, H: g.Rule.Y - last.Y - 1}
	s.Yours = g.Ring
	if g.Projector { // what is asked is large below it
		const part = 5 // columns of radius less
		s.Yours.R, s.Yours.Row = g.Ring.R-part, last.Y+2+int(g.Ring.R-part)/2
	}
	s.Body = schematic.Rect{X: 1, Y: last.Y + 1, W: cols - 2, H: g.Rule.Y - last.Y - 1}
	return s, true
}

// Narrow reports whether words must be kept short.
func (s Sizes) Narrow() bool { return s.Cols < 70 }

// Roomy reports whether everything stands side by side.
func (s Sizes) Roomy() bool { return s.Path.W > 0 }
