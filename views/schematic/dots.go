package schematic

import (
	"math"

	"spotward/views/theme"
)

// dot is a dot on the canvas, counted from its top left corner.
type dot struct{ i, j int }

// pen is what dots are set with: the layer they lie on and their role.
type pen struct {
	on   layer
	role theme.Role
}

func (c *Canvas) bit(d dot) (*cell, uint8) {
	l := c.at(floorDiv(d.i, c.set.wide), floorDiv(d.j, c.set.high))
	x, y := d.i-floorDiv(d.i, c.set.wide)*c.set.wide, d.j-floorDiv(d.j, c.set.high)*c.set.high
	return l, 1 << (x*c.set.high + y)
}

// dot sets one dot.
func (c *Canvas) dot(d dot, p pen) {
	if l, bit := c.bit(d); l != nil {
		l.dots[p.on] |= bit
		l.ink[p.on] = p.role
	}
}

// clearBelow takes a dot away from all layers below p's.
func (c *Canvas) clearBelow(d dot, on layer) {
	if l, bit := c.bit(d); l != nil {
		for i := range on {
			l.dots[i] &^= bit
		}
	}
}

// markClear is how far around itself a mark clears what lies below, in half
// columns.
const markClear = 1.6

// mark sets the dots of a mark and clears a margin around each.
func (f frame) mark(dots []dot, p pen) {
	reachI := int(math.Ceil(markClear / f.half(1, 0)))
	reachJ := int(math.Ceil(markClear / f.half(0, 1)))
	for _, d := range dots {
		for di := -reachI; di <= reachI; di++ {
			for dj := -reachJ; dj <= reachJ; dj++ {
				if f.half(float64(di), float64(dj)) <= markClear {
					f.c.clearBelow(dot{d.i + di, d.j + dj}, p.on)
				}
			}
		}
	}
	f.dots(dots, p)
}

func (f frame) dots(dots []dot, p pen) {
	for _, d := range dots {
		f.c.dot(d, p)
	}
}

// frame is a place on the canvas with a point to measure from. Points are
// (x, y) in columns from there, y upward; a cell's height counts as the aspect
// says, so that circles are round.
type frame struct {
	c      *Canvas
	x0, y0 float64 // the point to measure from, in dots
	sx, sy float64 // dots a column, across and up
}

// frameAt returns a frame that measures from the middle of a cell. Only from
// there do circles come out the same on all four sides.
func (c *Canvas) frameAt(col, row int) frame {
	w, h := c.set.wide, c.set.high
	return frame{
		c:  c,
		x0: float64(w*col) + float64(w-1)/2,
		y0: float64(h*row) + float64(h-1)/2,
		sx: float64(w),
		sy: float64(h) / c.aspect,
	}
}

// half returns the length of an offset in dots, in half columns: the spacing of
// braille dots, in which the sizes of marks are given.
func (f frame) half(di, dj float64) float64 {
	return 2 * math.Hypot(di/f.sx, dj/f.sy)
}

// maxDots is beyond every canvas: what is larger is not drawn at all.
const maxDots = 8 * maxSide

// point returns where (x, y) is, in dots.
func (f frame) point(x, y float64) (i, j float64) { return f.x0 + f.sx*x, f.y0 - f.sy*y }

// nearest returns the dot nearest to (x, y).
func (f frame) nearest(x, y float64) dot {
	i, j := f.point(x, y)
	return dot{round(i), round(j)}
}

// cell returns the cell that holds (x, y).
func (f frame) cell(x, y float64) (col, row int) {
	return round(f.col() + x), round(f.row() - y/f.c.aspect)
}

// col and row return the frame's middle in cells.
func (f frame) col() float64 { return (f.x0 - float64(f.c.set.wide-1)/2) / float64(f.c.set.wide) }
func (f frame) row() float64 { return (f.y0 - float64(f.c.set.high-1)/2) / float64(f.c.set.high) }

// fill returns the dots whose offsets (x, y) from the frame's middle, in
// columns, satisfy in. Only offsets up to reach are tried.
func (f frame) fill(reach float64, in func(x, y float64) bool) []dot {
	if !(reach < maxDots) {
		return nil
	}
	var dots []dot
	i0, i1 := int(math.Floor(f.x0-f.sx*reach)), int(math.Ceil(f.x0+f.sx*reach))
	j0, j1 := int(math.Floor(f.y0-f.sy*reach)), int(math.Ceil(f.y0+f.sy*reach))
	for j := max(j0, 0); j <= min(j1, f.c.rows*f.c.set.high-1); j++ {
		for i := max(i0, 0); i <= min(i1, f.c.cols*f.c.set.wide-1); i++ {
			if in((float64(i)-f.x0)/f.sx, (f.y0-float64(j))/f.sy) {
				dots = append(dots, dot{i, j})
			}
		}
	}
	return dots
}

// circle returns the outline of the circle of radius r columns, one dot a
// column where it is flat and one a row where it is steep. Radii are snapped so
// that its outermost dots are whole. Only every so many dots are returned, and
// where keep is given only those at clock angles (radians, from straight up)
// that it keeps.
func (f frame) circle(r float64, every int, keep func(theta float64) bool) []dot {
	fx, fy := frac(f.x0), frac(f.y0)
	rx, ry := snap(f.sx*r, fx), snap(f.sy*r, fy)
	if !(r > 0 && math.Max(rx, ry) < maxDots) {
		return nil
	}
	var dots []dot
	add := func(u, v float64) {
		for _, s := range [4][2]float64{{1, 1}, {1, -1}, {-1, 1}, {-1, -1}} {
			u, v := u*s[0], v*s[1]
			if keep == nil || keep(math.Atan2(u/f.sx, v/f.sy)) {
				dots = append(dots, dot{round(f.x0 + u), round(f.y0 - v)})
			}
		}
	}
	if rx == 0 || ry == 0 { // smaller than a dot: what is left of it
		for u := fx; u <= rx; u++ {
			add(u, ry)
		}
		for v := fy; v <= ry; v++ {
			add(rx, v)
		}
		return dots
	}
	// Flat and steep are told apart on the snapped offsets: on the true ones
	// small circles lose their corners.
	for u := fx; u <= rx; u += float64(every) {
		v := snap(ry*math.Sqrt(1-sq(u/rx)), fy)
		if u/sq(rx) <= v/sq(ry) {
			add(u, v)
		}
	}
	for v := fy; v <= ry; v += float64(every) {
		u := snap(rx*math.Sqrt(1-sq(v/ry)), fx)
		if v/sq(ry) < u/sq(rx) {
			add(u, v)
		}
	}
	return dots
}

// ellipse returns the outline of a circle of radius r columns that is seen
// flattened by squash along the direction (dx, dy).
func (f frame) ellipse(r, squash, dx, dy float64) []dot {
	if !(r > 0 && r*f.sx < maxDots) {
		return nil
	}
	// a·x² + 2b·xy + c·y² = r², the sum of the squares across and along.
	k := 1 / sq(squash)
	a, b, c := k*dx*dx+dy*dy, (k-1)*dx*dy, k*dy*dy+dx*dx
	var dots []dot
	for i := math.Ceil(f.x0 - f.sx*r); i <= f.x0+f.sx*r; i++ {
		x := (i - f.x0) / f.sx
		for _, y := range roots(c, b*x, a*x*x-r*r) {
			if math.Abs(a*x+b*y) <= math.Abs(b*x+c*y) {
				dots = append(dots, f.nearest(x, y))
			}
		}
	}
	for j := math.Ceil(f.y0 - f.sy*r); j <= f.y0+f.sy*r; j++ {
		y := (f.y0 - j) / f.sy
		for _, x := range roots(a, b*y, c*y*y-r*r) {
			if math.Abs(a*x+b*y) > math.Abs(b*x+c*y) {
				dots = append(dots, f.nearest(x, y))
			}
		}
	}
	return dots
}

// roots returns the roots of p·v² + 2q·v + s.
func roots(p, q, s float64) []float64 {
	disc := q*q - p*s
	if disc < 0 {
		return nil
	}
	w := math.Sqrt(disc)
	return []float64{(-q - w) / p, (-q + w) / p}
}

// line returns the dots from (x0, y0) to (x1, y1), both in columns.
func (f frame) line(x0, y0, x1, y1 float64) []dot {
	i0, j0 := f.point(x0, y0)
	i1, j1 := f.point(x1, y1)
	n := math.Max(math.Abs(i1-i0), math.Abs(j1-j0))
	if !(n < maxDots) {
		return nil
	}
	steps := max(1, round(n))
	dots := make([]dot, 0, steps+1)
	for k := range steps + 1 {
		t := float64(k) / float64(steps)
		dots = append(dots, dot{round(i0 + t*(i1-i0)), round(j0 + t*(j1-j0))})
	}
	return dots
}

// snap returns the value nearest to v that is a whole number plus fraction.
func snap(v, fraction float64) float64 { return math.Floor(v-fraction+0.5) + fraction }

func frac(v float64) float64 { return v - math.Floor(v) }

func sq(v float64) float64 { return v * v }

// round rounds halves up on both sides of zero, so that a drawing looks the
// same wherever it stands.
func round(v float64) int { return int(math.Floor(v + 0.5)) }

func floorDiv(a, b int) int {
	if a < 0 {
		return -((b - 1 - a) / b)
	}
	return a / b
}
