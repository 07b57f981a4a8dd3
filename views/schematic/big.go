package schematic

import (
	"strings"

	"spotward/session/words"
	"spotward/views/theme"
)

// BigSize is a size of big letters.
type BigSize uint8

// The sizes. A pixel is a column wide and half a row high, so square.
const (
	Small       BigSize = iota // 5×7 pixels: 4 rows, a digit 5 columns wide
	Tall                       // 7×10 with strokes two pixels wide: 5 rows; for screws
	SmallDouble                // Small twice as large: 7 rows
	TallDouble                 // Tall twice as large: 10 rows
	SmallTriple                // Small three times as large: 11 rows
	TallTriple                 // Tall three times as large: 15 rows
	Slim                       // 3×5 pixels, for whole sentences: 3 rows with the gap under it
)

// BigSpec is a word in big letters.
type BigSpec struct {
	Text string
	Size BigSize
	Role theme.Role // theme.Huge where it says what to do
	// Low starts it half a row lower, where a line of text stands right above.
	Low bool
}

// BigRows returns how many rows a word in that size takes on c.
func (c *Canvas) BigRows(size BigSize) int {
	h := c.bitmaps("8", size)[0].high()
	if c.ASCII() {
		return h
	}
	return (h + 1) / 2
}

// BigWidth returns how many columns the word takes on c.
func (c *Canvas) BigWidth(text string, size BigSize) int {
	w := 0
	for i, b := range c.bitmaps(text, size) {
		if i > 0 {
			w += size.gap()
		}
		w += b.wide()
	}
	return w
}

// Big writes a word in big letters from col, row on and returns the column
// after it. Characters that have no big form are left out.
func (c *Canvas) Big(col, row int, s BigSpec) int {
	top := 2 * row
	if s.Low {
		top++
	}
	if c.ASCII() {
		top = row
	}
	for i, b := range c.bitmaps(s.Text, s.Size) {
		if i > 0 {
			col += s.Size.gap()
		}
		c.bitmap(col, top, b, s.Role)
		col += b.wide()
	}
	return col
}

// gap returns the pixels between letters.
func (z BigSize) gap() int {
	switch z {
	case SmallDouble, TallDouble:
		return 2
	case SmallTriple, TallTriple:
		return 3
	}
	return 1
}

// BigFit returns the first of the sizes, the largest first, in which text is no
// wider than width, or the last. Big letters are never wrapped.
func (c *Canvas) BigFit(text string, width int, sizes ...BigSize) BigSize {
	size := Small
	for _, size = range sizes {
		if c.BigWidth(text, size) <= width {
			break
		}
	}
	return size
}

// BigWrap breaks text at its spaces into lines that are no wider than width in
// that size, capitals throughout, never within what can be typed; false where a
// word or a character of it has no place there.
func (c *Canvas) BigWrap(text string, width int, size BigSize) ([]string, bool) {
	var lines []string
	for _, word := range strings.Fields(words.Unbroken(text)) {
		word = strings.ToUpper(words.Plain(word))
		for _, r := range word {
			if r != ' ' && len(c.bitmaps(string(r), size)) == 0 {
				return nil, false
			}
		}
		if c.BigWidth(word, size) > width {
			return nil, false
		}
		if n := len(lines); n > 0 && c.BigWidth(lines[n-1]+" "+word, size) <= width {
			lines[n-1] += " " + word
			continue
		}
		lines = append(lines, word)
	}
	return lines, true
}

// bitmaps returns the letters of text as they are drawn on c.
func (c *Canvas) bitmaps(text string, size BigSize) []bitmap {
	var out []bitmap
	for _, r := range text {
		var b bitmap
		if c.ASCII() {
			b = asciiGlyph(r, size)
		} else {
			b = blockGlyph(r, size)
		}
		if len(b) > 0 {
			out = append(out, b)
		}
	}
	return out
}

func blockGlyph(r rune, size BigSize) bitmap {
	switch size {
	case Tall:
		return glyph7x10(r)
	case SmallDouble:
		return glyph5x7(r).scale2x()
	case TallDouble:
		return glyph7x10(r).scale2x()
	case SmallTriple:
		return glyph5x7(r).scale3x()
	case TallTriple:
		return glyph7x10(r).scale3x()
	case Slim:
		return glyph3x5(r)
	}
	return glyph5x7(r)
}

// asciiGlyph returns the letter in whole cells. A screw's letter is filled with
// itself, the others with "#".
func asciiGlyph(r rune, size BigSize) bitmap {
	switch size {
	case Tall:
		return glyph7x10(r).halveRows().filled(byte(r))
	case SmallDouble:
		return glyph5x7(r).widen()
	case TallDouble:
		return glyph7x10(r).widen().filled(byte(r))
	case SmallTriple:
		return glyph5x5(r).scale3x().halveRows()
	case TallTriple:
		return glyph7x10(r).scale3x().halveRows().filled(byte(r))
	case Slim:
		return glyph3x5(r)
	}
	return glyph5x5(r)
}

// bitmap draws a letter with its top at half row top (ASCII: row top).
func (c *Canvas) bitmap(col, top int, b bitmap, role theme.Role) {
	for y := range b.high() {
		for x := range b.wide() {
			switch {
			case !b.on(x, y):
			case c.ASCII():
				c.put(col+x, top+y, b[y][x:x+1], 1, role)
			default:
				c.halfBlock(col+x, top+y, role)
			}
		}
	}
}

// halfBlock sets the upper (even) or lower (odd) half of a cell.
func (c *Canvas) halfBlock(col, half int, role theme.Role) {
	row := floorDiv(half, 2)
	l := c.at(col, row)
	if l == nil {
		return
	}
	glyph, other := "▀", "▄"
	if half != 2*row {
		glyph, other = other, glyph
	}
	if l.text == other {
		glyph = "█"
	}
	c.put(col, row, glyph, 1, role)
	l.solid = glyph == "█"
}
