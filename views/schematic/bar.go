package schematic

import (
	"math"

	"spotward/views/theme"
)

// BarSpec is a length against what is allowed of it. All are in the same unit.
type BarSpec struct {
	Value   float64 // how much there is
	Allowed float64 // where the post stands
	Full    float64 // what the whole bar stands for
	Role    theme.Role
	// Loose draws it as a spread and not as a bound: broken.
	Loose bool
}

// Bar draws a bar of width columns: filled as far as the value, a post at what
// is allowed. A bar past its post says too much without a colour.
func (c *Canvas) Bar(col, row, width int, s BarSpec) {
	filled, rest, post, bare := "━", "─", "┿", "┼"
	if s.Loose {
		filled = "╍"
	}
	if c.ASCII() {
		filled, rest, post, bare = "=", "-", "|", "|"
		if s.Loose {
			filled = "~"
		}
	}
	upTo, at := barCells(s.Value, s.Full, width), barCells(s.Allowed, s.Full, width)
	for k := range c.run(col, width) {
		switch {
		case s.Allowed > 0 && k == min(at, width-1):
			if k >= upTo {
				post = bare
			}
			c.put(col+k, row, post, 1, theme.Ink)
		case k < upTo:
			c.put(col+k, row, filled, 1, s.Role)
		default:
			c.put(col+k, row, rest, 1, theme.Line)
		}
	}
}

// barCells returns how many of width cells v fills of full.
func barCells(v, full float64, width int) int {
	if !(v > 0 && full > 0) {
		return 0
	}
	return round(math.Min(v/full, 1) * float64(width))
}
