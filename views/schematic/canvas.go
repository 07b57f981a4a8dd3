// Package schematic draws the parts of a telescope in the characters of a
// terminal: the two mirrors' faces, the target, the screws, the key, the way of
// the beam.
//
// It only draws. What goes in is numbers and words, what comes out is a grid of
// cells with a role each; where a spot is and what to do about it was decided
// elsewhere. Points are optics.Dial: mm across the beam as the person sees
// them, 12 o'clock straight up. Hours are clock positions, 0 ≤ h < 12, halves
// allowed. Columns and rows count from 0 at the top left.
//
// Whatever lies outside the canvas is cut off; no size, however small, is an
// error.
package schematic

import (
	"strings"

	"spotward/views/theme"
)

// layer orders what lies on top of what in a cell; words lie over all.
type layer uint8

const (
	onRings layer = iota
	onRim
	onHole
	onTrail // from here on: marks
	onPath
	onCue // from here on: marks that no path runs into
	onGhost
	onSpot
	onTop // the cue, where it lies on the spot

	layers
)

// cell is one character on the screen.
type cell struct {
	text  string // a word's character, "" where only dots may be
	tail  bool   // the second half of a wide character to the left
	solid bool   // part of a big letter
	role  theme.Role
	dots  [layers]uint8
	ink   [layers]theme.Role
}

// Options say what kind of terminal is drawn for. The zero Options are braille
// in cells twice as high as wide.
type Options struct {
	Glyphs Glyphs
	Aspect float64 // a cell's height over its width; 0 = 2
}

// Canvas is a grid of cells to draw on.
type Canvas struct {
	cols, rows int
	glyphs     Glyphs
	set        glyphSet
	aspect     float64
	cells      []cell
}

// maxSide keeps a size somebody made up from eating the memory.
const maxSide = 1000

// New returns an empty canvas of cols × rows cells. Sizes below 0 count as 0.
func New(cols, rows int, o Options) *Canvas {
	cols, rows = clamp(cols, 0, maxSide), clamp(rows, 0, maxSide)
	if !(o.Aspect >= 1 && o.Aspect <= 4) {
		// No terminal has such cells; a window that reports them is wrong.
		o.Aspect = 2
	}
	return &Canvas{cols: cols, rows: rows, glyphs: o.Glyphs, set: o.Glyphs.set(),
		aspect: o.Aspect, cells: make([]cell, cols*rows)}
}

// ASCII reports whether only ASCII may be drawn.
func (c *Canvas) ASCII() bool { return c.glyphs == ASCII }

// at returns the cell there, nil off the canvas.
func (c *Canvas) at(col, row int) *cell {
	if col < 0 || row < 0 || col >= c.cols || row >= c.rows {
		return nil
	}
	return &c.cells[row*c.cols+col]
}

// shown returns the dots of a cell that are seen and the role they are seen in:
// that of the topmost. A cell with a mark in it shows marks only, so that no
// dot of a ring takes a mark's colour.
func (l *cell) shown() (bits uint8, role theme.Role) {
	bottom := onRings
	for _, from := range []layer{onCue, onTrail} {
		if l.any(from) {
			bottom = from
			break
		}
	}
	for i := bottom; i < layers; i++ {
		if l.dots[i] != 0 {
			bits |= l.dots[i]
			role = l.ink[i]
		}
	}
	return bits, role
}

// any reports whether the cell has dots on layer from or above.
func (l *cell) any(from layer) bool {
	for i := from; i < layers; i++ {
		if l.dots[i] != 0 {
			return true
		}
	}
	return false
}

// Lines returns the rows of the canvas as text for a terminal, each of which
// starts and ends in the terminal's own style. Where the palette paints the
// ground a line is as wide as the canvas; else empty cells at its end are left
// out.
func (c *Canvas) Lines(p theme.Palette) []string {
	lines := make([]string, c.rows)
	pen := theme.NewPen(p)
	for row := range lines {
		for col := range c.cols {
			c.cells[row*c.cols+col].write(pen, c.set)
		}
		lines[row] = pen.Line()
	}
	return lines
}

// String returns the canvas as one text, rows divided by line feeds.
func (c *Canvas) String(p theme.Palette) string {
	return strings.Join(c.Lines(p), "\n")
}

// Cell returns what a cell shows and its role: "" for an empty cell and for the
// second half of a wide character.
func (c *Canvas) Cell(col, row int) (string, theme.Role) {
	l := c.at(col, row)
	if l == nil || l.tail {
		return "", theme.Ground
	}
	if l.text != "" {
		return l.text, l.role
	}
	bits, role := l.shown()
	if bits == 0 {
		return "", theme.Ground
	}
	return string(c.set.glyph(bits)), role
}

func (l *cell) write(pen *theme.Pen, set glyphSet) {
	switch {
	case l.tail:
		// Written with the character to the left.
	case l.solid:
		pen.Solid(l.role, l.text)
	case l.text == " " && l.role != theme.Typed:
		pen.Blank()
	case l.text != "":
		pen.Text(l.role, l.text)
	default:
		bits, role := l.shown()
		if bits == 0 {
			pen.Blank()
			return
		}
		pen.Rune(role, set.glyph(bits))
	}
}

func clamp(v, low, high int) int { return max(low, min(v, high)) }
