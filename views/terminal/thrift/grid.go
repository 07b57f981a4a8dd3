package thrift

import (
	"bytes"
	"slices"
	"unicode"
	"unicode/utf8"

	"github.com/mattn/go-runewidth"
)

// cell is one place of the screen. One that is not known is as the terminal
// has it.
type cell struct {
	known bool
	r     rune
	style style
}

// blank is a cell as erasing leaves it.
func blank() cell { return cell{known: true, r: ' '} }

// pen is where and how the next character is written.
type pen struct {
	known bool
	x, y  int // x = the number of columns: the line is full
	style style
}

// grid is a screen.
type grid struct {
	cols, rows int
	cells      []cell
	pen        pen
}

func newGrid(cols, rows int) grid {
	return grid{cols: cols, rows: rows, cells: make([]cell, max(0, cols*rows))}
}

func (g grid) clone() grid {
	g.cells = slices.Clone(g.cells)
	return g
}

func (g grid) row(y int) []cell { return g.cells[y*g.cols : (y+1)*g.cols] }

// blankFrom returns where the blank end of a row begins.
func blankFrom(row []cell) int {
	end := len(row)
	for end > 0 && row[end-1] == blank() {
		end--
	}
	return end
}

// changes returns which cells of a row are to be sent: those that change, and of
// words that change in part, and the words beside them, all.
func changes(row, there []cell) []bool {
	send := make([]bool, len(row))
	for from := 0; from < len(row); {
		to := runEnd(row, from)
		changed, words := false, false
		for x := from; x < to; x++ {
			send[x] = row[x].known && row[x] != there[x]
			changed = changed || send[x]
			words = words || unicode.IsLetter(row[x].r)
		}
		for x := from; changed && words && x < to; x++ {
			send[x] = row[x].known
		}
		from = to
	}
	return send
}

// runEnd returns where the run that begins at from ends: before two spaces, or
// after those that it begins with.
func runEnd(row []cell, from int) int {
	space := func(x int) bool { return row[x].r == ' ' }
	x := from
	for x < len(row) && space(x) {
		x++
	}
	if x > from {
		return x
	}
	for x < len(row) && !(space(x) && (x+1 == len(row) || space(x+1))) {
		x++
	}
	return x
}

func copyKnown(to, from []cell) {
	for i, c := range from {
		if c.known {
			to[i] = c
		}
	}
}

// home is how every whole drawing starts: the cursor is known from there on.
const home = "\x1b[H"

func startsKnown(p []byte) bool { return bytes.HasPrefix(p, []byte(home)) }

// entersAlternate returns whether the alternate screen is shown after p.
func entersAlternate(p []byte, before bool) bool {
	in, out := bytes.LastIndex(p, []byte("\x1b[?1049h")), bytes.LastIndex(p, []byte("\x1b[?1049l"))
	if in == out {
		return before
	}
	return in > out
}

// take draws p. What it holds of the terminal's modes is returned, to be sent
// as it is. It reports false when it does not understand p.
func (g *grid) take(p []byte) (modes []byte, ok bool) {
	if startsKnown(p) && !g.pen.known {
		g.pen = pen{known: true}
	}
	for len(p) > 0 {
		if p[0] == '\x1b' {
			seq, rest, found := cutSequence(p)
			if !found {
				return nil, false
			}
			switch {
			case seq.private != 0:
				if seq.private != '?' || seq.args == "1049" {
					return nil, false
				}
				modes = append(modes, p[:len(p)-len(rest)]...)
			case !g.obey(seq):
				return nil, false
			}
			p = rest
			continue
		}
		r, n := utf8.DecodeRune(p)
		if !g.put(r) {
			return nil, false
		}
		p = p[n:]
	}
	return modes, true
}

// put writes a character.
func (g *grid) put(r rune) bool {
	switch {
	case r == '\r':
		g.pen.x = 0
		return true
	case r == '\n':
		g.pen.y++ // a raw terminal keeps the column
		return g.pen.y < g.rows
	case r == utf8.RuneError || runewidth.RuneWidth(r) != 1 || g.pen.x >= g.cols || g.pen.y >= g.rows:
		return false // it would wrap, or scroll, or stand on two cells
	}
	c := cell{true, r, g.pen.style}
	if r == ' ' && c.style.clear() {
		c = blank()
	}
	g.cells[g.pen.y*g.cols+g.pen.x] = c
	g.pen.x++
	return true
}

// obey does what a sequence says.
func (g *grid) obey(s sequence) bool {
	switch s.final {
	case 'm':
		return g.pen.style.set(s.args)
	case 'H':
		row, col, ok := s.pair()
		if !ok || row > g.rows || col > g.cols {
			return false
		}
		g.pen.x, g.pen.y = col-1, row-1
		return true
	case 'K':
		return s.args == "" && g.pen.style == style{} && g.blank(g.pen.y*g.cols+min(g.pen.x, g.cols), (g.pen.y+1)*g.cols)
	case 'J':
		// All of it is cleared to be drawn afresh: then nothing is known.
		return s.args == "" && g.pen.style == style{} && g.blank(g.pen.y*g.cols+min(g.pen.x, g.cols), len(g.cells))
	}
	n, ok := s.count()
	if !ok {
		return false
	}
	switch s.final {
	case 'A':
		g.pen.y = max(0, g.pen.y-n)
	case 'B':
		g.pen.y = min(g.rows-1, g.pen.y+n)
	case 'C':
		g.pen.x = min(g.cols-1, g.pen.x+n)
	case 'D':
		g.pen.x = max(0, g.pen.x-n)
	default:
		return false
	}
	return true
}

func (g *grid) blank(from, to int) bool {
	if from < 0 || from > to || to > len(g.cells) {
		return false
	}
	for i := from; i < to; i++ {
		g.cells[i] = blank()
	}
	return true
}
