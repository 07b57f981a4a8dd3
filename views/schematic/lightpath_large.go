package schematic

import (
	"math"

	"spotward/views/theme"
)

// PathRows returns how many rows a light path takes that is cols columns wide,
// with the words above and below it.
func (c *Canvas) PathRows(cols int, s PathSpec) int {
	if !(s.SkyEndMM > 0) {
		return 0
	}
	mm := math.Max(0, float64(cols-3)) / s.SkyEndMM
	return int(math.Ceil((s.HoleMM+laserMM+s.TubeMM)*mm/c.aspect)) + 3
}

// PathCell returns the cell in which LightPath draws a point of the section in
// r, and false where nothing is drawn.
func (c *Canvas) PathCell(r Rect, s PathSpec, at SectionPoint) (col, row int, ok bool) {
	sec, ok := c.sectionIn(r, s)
	if !ok {
		return 0, 0, false
	}
	col, row = sec.cell(sec.at(at))
	return col, row, true
}

// TimesFor returns the largest enlargement at which every one of the ways still
// lies within the tube, so that drawings of several poses can share it.
func (s PathSpec) TimesFor(ways ...[]Vertex) float64 {
	k := math.Inf(1)
	for _, way := range ways {
		one := s
		one.Out, one.Back = way, nil
		k = math.Min(k, one.times())
	}
	return k
}

// turnedBack returns a point before it was turned by rad, anticlockwise.
func turnedBack(x, y, rad float64) (float64, float64) {
	if rad == 0 {
		return x, y
	}
	s, c := math.Sincos(rad)
	return x*c + y*s, y*c - x*s
}

// before draws the ways as they were, in far dots.
func (f section) before(s PathSpec, k float64) {
	const every = 5
	p := pen{onRings, theme.Trail}
	for _, way := range [][]Vertex{s.WasOut, s.WasBack} {
		for j := 1; j < len(way); j++ {
			x0, y0 := f.at(way[j-1].drawn(k))
			x1, y1 := f.at(way[j].drawn(k))
			for n, at := range f.line(x0, y0, x1, y1) {
				switch {
				case n%every != 0:
				case f.c.ASCII():
					f.c.put(at.i, floorDiv(at.j, 2), ".", 1, p.role)
				default:
					f.c.dot(at, p)
				}
			}
		}
	}
}
