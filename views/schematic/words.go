package schematic

import (
	"math"

	"spotward/optics"
	"spotward/views/theme"
)

// markWords writes the word beside each mark.
func (d dial) markWords(s FaceSpec) {
	r := d.spotRadius(d.size)
	if d.overlap(s.Now, s.Cue) {
		r *= aroundPart
	}
	now := d.beside(s.Now, theme.Light, r, Rect{}, right, left, below, above)
	d.beside(s.Cue, theme.Act, r, now, left, right, below, above)
	d.beside(s.Ghost, theme.You, r, Rect{}, left, below, right, above)
	for i := range s.Calls {
		d.beside(&s.Calls[i], theme.You, blockHalf*d.size, Rect{}, right, left, below, above)
	}
	for i := range s.Trail {
		if !d.hidden(s, i, r) {
			d.beside(&s.Trail[i], theme.Label, blockHalf*d.size, Rect{}, left, right, below, above)
		}
	}
}

// hidden reports whether nothing is to be seen of a mark on the trail: it lies
// beyond the rim, or under a later one or a mark of radius r.
func (d dial) hidden(s FaceSpec, i int, r float64) bool {
	at := s.Trail[i].At
	if d.beyond(at) {
		return true
	}
	covers := func(m *Mark, reach float64) bool {
		if m == nil || !finite(m.At) {
			return false
		}
		x, y := d.at(optics.Dial{Right: m.At.Right - at.Right, Up: m.At.Up - at.Up})
		return math.Hypot(x, y) < reach
	}
	for j := i + 1; j < len(s.Trail); j++ {
		if covers(&s.Trail[j], blockHalf*d.size) {
			return true
		}
	}
	return covers(s.Now, r) || covers(s.Ghost, r) || covers(s.Cue, blockHalf*d.size)
}

// side is where a word stands beside a mark.
type side uint8

const (
	right side = iota
	left
	below
	above
)

// beside writes the word of a mark of radius r on the first of the sides where it covers
// neither mark nor word, and if it can be helped no edge and not in a row with
// another word: "stop" before "now" would read as an order. Where there is no
// such place the mark's shape must do. It returns where it stands.
func (d dial) beside(m *Mark, role theme.Role, r float64, other Rect, sides ...side) Rect {
	if m == nil || m.Word == "" || !finite(m.At) {
		return Rect{}
	}
	col, row := d.shownAt(m.At)
	w := Width(m.Word)
	for _, try := range []struct {
		holds func(*cell) bool
		alone bool
	}{{holdsEdge, true}, {holdsMark, true}, {holdsEdge, false}, {holdsMark, false}} {
		for _, s := range sides {
			for _, b := range d.boxes(role, col, row, w, r, s) {
				if try.alone && inARow(b, other) {
					continue
				}
				if d.inside(b) && d.free(b, try.holds) && d.apart(b) {
					d.c.Text(b.X, b.Y, role, m.Word)
					return b
				}
			}
		}
	}
	return Rect{}
}

// inARow reports whether a word stands so near before or after another that both
// are read as one.
func inARow(b, other Rect) bool {
	const near = 12 // columns
	return other.W > 0 && b.Y == other.Y && b.X < other.X+other.W+near && other.X < b.X+b.W+near
}

// boxes returns where a word may stand on a side of a mark: of a cue right at it
// where the cross leaves that row free, then a row off.
func (d dial) boxes(role theme.Role, col, row, w int, r float64, s side) []Rect {
	b := d.box(col, row, w, r, s)
	near := b
	switch {
	case role != theme.Act: // a spot fills the row beside its middle
		return []Rect{b}
	case s == below && b.Y > row+1:
		near.Y--
	case s == above && b.Y < row-1:
		near.Y++
	default:
		return []Rect{b}
	}
	return []Rect{near, b}
}

// box returns where a word w columns wide stands on a side of a mark of radius r
// in a cell.
func (d dial) box(col, row, w int, r float64, s side) Rect {
	dx, dy := round(r+1.5), round(r/d.c.aspect+1.2)
	switch s {
	case right:
		return Rect{col + dx, row, w, 1}
	case left:
		return Rect{col - dx - w + 1, row, w, 1}
	case below:
		return Rect{col - (w-1)/2, row + dy, w, 1}
	}
	return Rect{col - (w-1)/2, row - dy, w, 1}
}

// inside reports whether b lies where words may stand.
func (d dial) inside(b Rect) bool {
	w := d.within
	return b.X >= w.X && b.Y >= w.Y && b.X+b.W <= w.X+w.W && b.Y+b.H <= w.Y+w.H
}

// free reports whether no cell of b holds what must not be covered.
func (d dial) free(b Rect, holds func(*cell) bool) bool {
	for y := b.Y; y < b.Y+b.H; y++ {
		for x := b.X; x < b.X+b.W; x++ {
			if l := d.c.at(x, y); l != nil && holds(l) {
				return false
			}
		}
	}
	return true
}

// apart reports whether no other word stands right before or after b.
func (d dial) apart(b Rect) bool {
	return d.free(Rect{b.X - 1, b.Y, b.W + 2, b.H}, func(l *cell) bool { return l.text != "" })
}

// What a cell may hold that a word should not cover.
func holdsAnything(l *cell) bool { return l.text != "" || l.any(onRings) }
func holdsEdge(l *cell) bool     { return l.text != "" || l.any(onRim) }
func holdsMark(l *cell) bool     { return l.text != "" || l.any(onTrail) }
