package schematic

import (
	"fmt"
	"math"
	"strings"

	"spotward/views/theme"
)

// Ruler is a length that somebody measures by beside mm, such as the whole
// centre ring across.
type Ruler struct {
	MM   float64 // 0 = there is none
	Word string  // after a number: "r"
}

// How long a scale bar is, of the drawing's radius, at most: in mm, and where
// it is one ruler long; and the least that can be measured by, columns: of
// mm only where there is little room.
const (
	barPart        = 0.6
	rulerPart      = 0.9
	leastBarCols   = 1.5
	leastRulerCols = 4.0
)

// ScaleBar is a length and how it is written beside the bar.
type ScaleBar struct {
	MM   float64
	Word string
}

// bars are the scale bars that suit a drawing, the best one first.
func (d dial) bars(r Ruler) []ScaleBar {
	var out []ScaleBar
	long := func(mm float64) float64 { return mm * d.mm }
	if w := long(r.MM); w >= leastRulerCols {
		for _, n := range []float64{5, 2, 1} {
			if long(n*r.MM) <= barPart*d.r || n == 1 && w <= rulerPart*d.r {
				name := fmt.Sprintf("%g%s", n, r.Word)
				out = append(out, ScaleBar{n * r.MM, name + ", " + figure(n*r.MM) + " mm"}, ScaleBar{n * r.MM, name})
			}
		}
	}
	top := barPart * d.r / d.mm
	if !(top > 1e-6 && top < 1e9) {
		return out
	}
	for decade := math.Pow(10, math.Floor(math.Log10(top))); long(decade*5) >= leastBarCols; decade /= 10 {
		for _, n := range []float64{5, 2, 1} {
			if mm := n * decade; mm <= top && long(mm) >= leastBarCols {
				out = append(out, ScaleBar{mm, figure(mm) + " mm"})
			}
		}
	}
	return out
}

func figure(mm float64) string { return fmt.Sprintf("%.4g", mm) }

// bar draws the scale bar in a corner where it covers nothing; where all of them
// are taken, within the rim.
func (d dial) bar(r Ruler) {
	for _, place := range []func(long, w int) (bar, word Rect, ok bool){d.barPlace, d.barWithin} {
		for _, b := range d.bars(r) {
			cells := d.barCells(b.MM)
			at, word, ok := place(len(cells), Width(b.Word))
			if !ok {
				continue
			}
			for i, g := range cells {
				d.c.put(at.X+i, at.Y, g, 1, theme.Label)
			}
			d.c.Text(word.X, word.Y, theme.Label, b.Word)
			return
		}
	}
}

// barWithin returns where a bar and its word stand within the rim, as low as
// they can.
func (d dial) barWithin(long, w int) (bar, word Rect, ok bool) {
	for row := d.rowOut(-1) - 1; row > d.rowOut(1); row-- {
		for col := int(d.col() - d.r); col < int(d.col()+d.r); col++ {
			b := Rect{col, row, long + 1 + w, 1}
			if d.inside(b) && d.free(Rect{col - 1, row, b.W + 2, 1}, holdsAnything) {
				return b, Rect{col + long + 1, row, w, 1}, true
			}
		}
	}
	return Rect{}, Rect{}, false
}

// barPlace returns where a bar and its word stand: side by side, or the word
// under it, or over it.
func (d dial) barPlace(long, w int) (bar, word Rect, ok bool) {
	if at, ok := d.corner([]int{long + 1 + w}); ok {
		return at[0], Rect{at[0].X + long + 1, at[0].Y, w, 1}, true
	}
	if at, ok := d.corner([]int{long, w}); ok {
		return at[0], at[1], true
	}
	if at, ok := d.corner([]int{w, long}); ok {
		return at[1], at[0], true
	}
	return Rect{}, Rect{}, false
}

// corners writes what stands about the drawing: what it is measured by, and the
// ground, which comes first where there is room for its word.
func (d dial) corners(s FaceSpec) {
	brief := strings.TrimSpace(s.GroundWord) == ""
	if !brief {
		d.ground(s.GroundWord)
	}
	d.scale(s.Lies)
	d.scale(s.Scale)
	if !s.Unmeasured {
		d.bar(s.Ruler)
	}
	if brief {
		d.ground(s.GroundWord)
	}
}

// barCells are the characters of a bar of that length, from the middle of its
// first dot to the middle of its last.
func (d dial) barCells(mm float64) []string {
	long := round(mm * d.mm * d.sx)
	set := d.c.set
	cells := make([]string, long/set.wide+1)
	for i := range cells {
		var bits uint8
		for x := range set.wide {
			switch at := i*set.wide + x; {
			case at == 0 || at == long:
				bits |= (1<<set.high - 1) << (x * set.high)
			case at < long:
				bits |= 1 << (x*set.high + set.high/2)
			}
		}
		cells[i] = string(set.glyph(bits))
		if set.wide == 1 { // half cells have no upright
			cells[i] = "-"
			if i == 0 || i == long {
				cells[i] = "|"
			}
		}
	}
	return cells
}

// scale writes how much of the thing is drawn, its outline and how wide that
// is, in a corner.
func (d dial) scale(lines []string) {
	var wide []int
	for _, l := range lines {
		wide = append(wide, Width(l))
	}
	at, ok := d.corner(wide, corner{})
	if !ok {
		return
	}
	for i, line := range lines {
		d.c.Text(at[i].X, at[i].Y, theme.Label, line)
	}
}

// corner is a corner of the drawing: the zero one is at the left below.
type corner struct{ right, above bool }

// How far beyond the rim a corner reaches, columns, and how far from its own
// corner a block may stand, rows and columns.
const (
	cornerCols = 8
	cornerRows = 4
	cornerIn   = 10
)

// corner returns the places for rows of these widths in a corner outside the
// rim, where they cover nothing: in the first corner wanted, else in another.
// They stand clear of the rim if they can.
func (d dial) corner(wide []int, first ...corner) ([]Rect, bool) {
	for _, k := range append(first, corner{right: true}, corner{}, corner{right: true, above: true}, corner{above: true}) {
		for _, gap := range []int{1, 0} {
			for off := range cornerRows {
				for in := range cornerIn {
					if rows := d.rowsIn(k, wide, off, in); d.clear(rows, gap) {
						return rows, true
					}
				}
			}
		}
	}
	return nil, false
}

// rowsIn places rows of these widths so many rows and columns from a corner.
func (d dial) rowsIn(k corner, wide []int, off, in int) []Rect {
	left, end := max(d.within.X, 1, int(d.col()-d.r-3)), min(d.within.X+d.within.W, int(d.col()+d.r+cornerCols))
	top, foot := max(d.within.Y, d.rowOut(1)), min(d.within.Y+d.within.H-1, d.rowOut(-1))
	rows := make([]Rect, len(wide))
	for i, w := range wide {
		rows[i] = Rect{left + in, foot - len(wide) + 1 - off + i, w, 1}
		if k.above {
			rows[i].Y = top + off + i
		}
		if k.right {
			rows[i].X = end - w - in
		}
	}
	return rows
}

// clear reports whether rows lie where words may stand, outside the rim, and
// cover nothing with a gap on both sides.
func (d dial) clear(rows []Rect, gap int) bool {
	for _, b := range rows {
		x, up := d.nearestIn(b, 0, 0)
		if math.Hypot(x, up) < d.r || !d.inside(b) || !d.apart(b) || !d.free(Rect{b.X - gap, b.Y, b.W + 2*gap, 1}, holdsAnything) {
			return false
		}
		for _, h := range d.hourBoxes() {
			if h.at.Y == b.Y && h.at.X <= b.X+b.W && b.X <= h.at.X+h.at.W {
				return false
			}
		}
	}
	return len(rows) > 0
}
