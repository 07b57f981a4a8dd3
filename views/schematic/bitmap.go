package schematic

import "strings"

// bitmap is a letter, a string a row, "." for nothing and anything else for a
// pixel.
type bitmap []string

// rows reads a bitmap from its rows, divided by spaces.
func rows(s string) bitmap { return strings.Fields(s) }

func (b bitmap) high() int { return len(b) }

func (b bitmap) wide() int {
	if len(b) == 0 {
		return 0
	}
	return len(b[0])
}

// on reports whether there is a pixel; outside there is none.
func (b bitmap) on(x, y int) bool {
	return y >= 0 && y < len(b) && x >= 0 && x < len(b[y]) && b[y][x] != '.'
}

// build returns a bitmap of that size from a rule.
func build(wide, high int, on func(x, y int) bool) bitmap {
	out := make(bitmap, high)
	for y := range out {
		row := make([]byte, wide)
		for x := range row {
			row[x] = '.'
			if on(x, y) {
				row[x] = '#'
			}
		}
		out[y] = string(row)
	}
	return out
}

// scale2x returns the bitmap twice as large with its corners rounded (the
// Scale2x rule).
func (b bitmap) scale2x() bitmap {
	return build(2*b.wide(), 2*b.high(), func(x, y int) bool {
		return b.corner(x/2, y/2, 2*(x%2)-1, 2*(y%2)-1)
	})
}

// scale3x returns the bitmap three times as large, its corners rounded by the
// same rule.
func (b bitmap) scale3x() bitmap {
	return build(3*b.wide(), 3*b.high(), func(x, y int) bool {
		px, py := x/3, y/3
		dx, dy := x%3-1, y%3-1
		if dx == 0 || dy == 0 {
			return b.on(px, py)
		}
		return b.corner(px, py, dx, dy)
	})
}

// corner returns the colour of the corner of a pixel toward (dx, dy): that of
// its two neighbours on that side where they agree and the two opposite do not.
func (b bitmap) corner(x, y, dx, dy int) bool {
	side, end := b.on(x+dx, y), b.on(x, y+dy)
	if side == end && side != b.on(x, y-dy) && side != b.on(x-dx, y) {
		return side
	}
	return b.on(x, y)
}

// widen returns the bitmap with each pixel twice as wide, for cells that are
// twice as high as wide.
func (b bitmap) widen() bitmap {
	return build(2*b.wide(), b.high(), func(x, y int) bool { return b.on(x/2, y) })
}

// halveRows returns the bitmap with each pair of rows made one.
func (b bitmap) halveRows() bitmap {
	return build(b.wide(), (b.high()+1)/2, func(x, y int) bool {
		return b.on(x, 2*y) || b.on(x, 2*y+1)
	})
}

// filled returns the bitmap with its pixels drawn as ch.
func (b bitmap) filled(ch byte) bitmap {
	out := make(bitmap, len(b))
	for i, row := range b {
		out[i] = strings.ReplaceAll(row, "#", string(ch))
	}
	return out
}

// stretch returns a 5×7 bitmap as 7×10, its outer stems and its bars doubled.
func (b bitmap) stretch() bitmap {
	cols := []int{0, 0, 1, 2, 3, 4, 4}
	switch b.wide() {
	case 0:
		return nil
	case 3:
		cols = []int{0, 0, 1, 1, 1, 2, 2}
	case 5:
	default:
		return b
	}
	lines := []int{0, 0, 1, 2, 3, 3, 4, 5, 6, 6}
	return build(len(cols), len(lines), func(x, y int) bool { return b.on(cols[x], lines[y]) })
}
