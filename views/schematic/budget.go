package schematic

import (
	"math"
	"strconv"

	"spotward/views/theme"
)

// BudgetRow is what one cause can do to the axis error.
type BudgetRow struct {
	Name string
	MM   float64 // in the focal plane
	// Bound: it is never more than that; else a usual error (1σ), drawn
	// broken.
	Bound bool
}

// BudgetSpec is all causes beside what is allowed.
type BudgetSpec struct {
	Rows      []BudgetRow
	AllowedMM float64
	// FullMM is what a whole bar stands for; 0 = a little more than the
	// largest of all.
	FullMM float64
}

// figureCols is the room of a figure: "12.3 mm" and a space on both sides.
const figureCols = 9

// Budget draws one cause a row in r: its name, mm, and a bar with a post at
// what is allowed. Rows beyond r are left out.
func (c *Canvas) Budget(r Rect, s BudgetSpec) {
	name, full := 0, s.FullMM
	for _, row := range s.Rows {
		name = max(name, Width(row.Name))
		if s.FullMM == 0 {
			full = math.Max(full, 1.1*math.Max(row.MM, s.AllowedMM))
		}
	}
	name = min(name, max(0, r.W-figureCols))
	for i, row := range s.Rows[:min(len(s.Rows), max(0, r.H))] {
		y := r.Y + i
		c.TextMax(r.X, y, name, theme.Label, row.Name)
		c.TextRight(r.X+name+figureCols-1, y, theme.Ink, millimetres(row.MM)+" mm")
		at := r.X + name + figureCols
		c.Bar(at, y, r.X+r.W-at, BarSpec{Value: row.MM, Allowed: s.AllowedMM, Full: full,
			Role: theme.Ink, Loose: !row.Bound})
	}
}

// millimetres writes a length to a tenth, or to a hundredth below that.
func millimetres(mm float64) string {
	if mm != 0 && math.Abs(mm) < 0.1 {
		return strconv.FormatFloat(mm, 'f', 2, 64)
	}
	return strconv.FormatFloat(mm, 'f', 1, 64)
}
