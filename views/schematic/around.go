package schematic

import (
	"math"
	"strings"

	"spotward/views/theme"
)

// rim draws the outermost edge of the thing and the ticks of the hours inside
// it; where the drawing ends before that edge, a dotted circle instead.
func (d dial) rim(o Object) {
	p := pen{onRim, theme.Label}
	r, every := d.r, 1
	if o != nil {
		if edge := o.edgeMM() * d.mm; !(edge > 0 && edge <= d.r+0.3) {
			every = 2
		} else {
			r = edge
		}
	}
	d.dots(d.circle(r, every, nil), p)
	if d.bare {
		return
	}
	for hour := range 12 {
		d.tick(hour, r, p)
	}
}

// tick draws the tick of an hour inside a rim, a dot apart from it: one dot,
// or three at the quarters.
func (d dial) tick(hour int, rim float64, p pen) {
	n := 1
	if hour%3 == 0 {
		n = 3
	}
	x, y := d.ray(float64(hour))
	rim = snap(d.sx*rim, frac(d.x0)) / d.sx
	for k := range n {
		r := rim - 1 - float64(k)
		for _, at := range d.straddle(x*r, y*r) {
			d.c.dot(at, p)
		}
	}
}

// straddle returns the dots at (x, y): one, or where it lies on an axis the two
// on both sides, since the middle of the dial lies between dots.
func (d dial) straddle(x, y float64) []dot {
	i, j := d.point(x, y)
	switch {
	case x == 0 && frac(i) != 0:
		return []dot{{int(i), round(j)}, {int(i) + 1, round(j)}}
	case y == 0 && frac(j) != 0:
		return []dot{{round(i), int(j)}, {round(i), int(j) + 1}}
	}
	return []dot{{round(i), round(j)}}
}

// hours writes 12, 3, 6 and 9 outside the rim, where no mark is in the way.
func (d dial) hours() {
	for _, h := range d.hourBoxes() {
		if h.at.Y >= d.within.Y && d.free(h.at, holdsMark) {
			d.c.Text(h.at.X, h.at.Y, theme.Ink, h.word)
		}
	}
}

// hourBox is where an hour is written.
type hourBox struct {
	word string
	at   Rect
}

func (d dial) hourBoxes() []hourBox {
	if d.bare {
		return nil
	}
	out := []hourBox{{word: "12"}, {word: "3"}, {word: "6"}, {word: "9"}}
	for i := range out {
		x, y := d.ray(3 * float64(i))
		out[i].at = d.clearOfRim(x, y, len(out[i].word))
	}
	return out
}

// clearOfRim returns where a word w columns wide stands along a ray, as near to
// the rim as it can without covering any of it.
func (d dial) clearOfRim(x, y float64, w int) Rect {
	half := float64(w) / 2
	for out := 0.6; ; out += 0.25 {
		r := d.r + out + math.Abs(x)*half + math.Abs(y)*d.c.aspect/2
		b := Rect{halfDown(d.col() + x*r - half + 0.5), round(d.row() - y*r/d.c.aspect), w, 1}
		// Rounding to whole cells moves it by less than two columns.
		if out > 2.5 || d.free(b, func(l *cell) bool { return l.dots[onRim] != 0 }) {
			return b
		}
	}
}

// halfDown rounds halves down: "12" then stands a little left of the middle.
func halfDown(v float64) int { return int(math.Ceil(v - 0.5)) }

// stub draws the stub of the focuser outside the rim.
func (d dial) stub(hour float64) {
	x, y := d.ray(hour)
	bulge := d.fill(d.r+2, func(u, v float64) bool {
		out, along := u*x+v*y, math.Abs(u*y-v*x)
		return out-d.r >= 0.6 && out-d.r <= 1.7 && along <= 1.6
	})
	d.dots(bulge, pen{onRim, theme.Ink})
}

// focuserWord writes the word beside the stub.
func (d dial) focuserWord(hour float64, word string) {
	x, y := d.ray(hour)
	d.outside(x, y, theme.Label, word)
}

// outside writes a word near the rim in direction (x, y), where it covers
// nothing.
func (d dial) outside(x, y float64, role theme.Role, word string) {
	r := d.r + 2.4
	// What belongs outside should stand outside if it can.
	d.nearestFree(x*r, y*r, d.r/2, role, word)
}

// coverFar is how many columns farther off a word may stand before it rather
// covers what is only ruled or hatched there.
const coverFar = 8

// nearestFree writes a word at the place nearest to (x, y) where it covers
// nothing, or at most rings and hatching; places inside the rim count as
// farther by the given columns. Where nothing is free the word is left out.
func (d dial) nearestFree(x, y, inside float64, role theme.Role, word string) {
	w := Width(word)
	best, least := Rect{}, math.Inf(1)
	for row := d.within.Y; row < d.within.Y+d.within.H; row++ {
		if off := (d.row()-float64(row))*d.c.aspect - y; math.Abs(off) >= least {
			continue
		}
		for col := d.within.X; col+w <= d.within.X+d.within.W; col++ {
			b := Rect{col, row, w, 1}
			nx, ny := d.nearestIn(b, x, y)
			far := math.Hypot(nx-x, ny-y)
			if far < least && nx*nx+ny*ny < d.r*d.r {
				far += inside
			}
			if far >= least || !d.free(Rect{col - 1, row, w + 2, 1}, holdsEdge) {
				continue
			}
			if !d.free(Rect{col - 1, row, w + 2, 1}, holdsAnything) {
				far += coverFar
			}
			if far < least {
				best, least = b, far
			}
		}
	}
	if best.W > 0 {
		d.c.Text(best.X, best.Y, role, word)
	}
}

// nearestIn returns the middle of the cell of b nearest to (x, y), as an offset.
func (d dial) nearestIn(b Rect, x, y float64) (float64, float64) {
	left := float64(b.X) - d.col()
	return math.Max(left, math.Min(x, left+float64(b.W-1))), (d.row() - float64(b.Y)) * d.c.aspect
}

// ground draws the ground on both sides of the six.
func (d dial) ground(word string) {
	if word == "" || !d.upright() {
		return
	}
	row, long := d.rowOut(-1), int(d.r*0.5)
	for _, side := range []int{-1, 1} {
		for k := 2; k <= long; k++ {
			col := round(d.col()) + side*k
			if l := d.c.at(col+side, row); l != nil && l.text != "" {
				break // up to another word
			}
			if d.free(Rect{col, row, 1, 1}, holdsMark) {
				d.c.put(col, row, d.c.groundGlyph(), 1, theme.Line)
			}
		}
	}
	if strings.TrimSpace(word) != "" {
		d.c.Text(round(d.col())+long+2, row, theme.Label, word)
	}
}

func (c *Canvas) groundGlyph() string {
	if c.glyphs == Braille {
		return "⠉"
	}
	return "-"
}
