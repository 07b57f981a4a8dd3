package schematic

import (
	"strings"

	"github.com/charmbracelet/x/ansi"

	"spotward/session/words"
	"spotward/views/theme"
)

// Text writes s on one line from col, row on and returns the column after it.
// What does not fit is cut, never wrapped, and dots say so; a wide character that
// would be cut in half is left out. What a terminal would obey stands as spaces.
func (c *Canvas) Text(col, row int, role theme.Role, s string) int {
	return c.TextMax(col, row, c.cols-col, role, s)
}

// TextMax writes like Text, but takes at most width columns.
func (c *Canvas) TextMax(col, row, width int, role theme.Role, s string) int {
	from, end := col, col+width
	s = words.OneLine(s)
	for s != "" {
		var g string
		var w int
		g, w, s = cluster(s)
		if col+w > end {
			c.cutMark(from, end, row, role, g+s)
			break
		}
		c.put(col, row, c.legible(g), w, role)
		col += w
	}
	return col
}

// cutMark puts dots over the end of a text of which the rest was cut, where that
// leaves more than dots.
func (c *Canvas) cutMark(from, end, row int, role theme.Role, rest string) {
	if strings.TrimSpace(rest) == "" || end-from <= 2*len(cutDots) {
		return
	}
	for i := range cutDots {
		c.put(end-len(cutDots)+i, row, ".", 1, role)
	}
}

// cutDots say that a text goes on.
const cutDots = "..."

// Cut keeps so many rows of a text, and marks where it goes on.
func Cut(lines []string, rows, width int) []string {
	if len(lines) <= rows || rows <= 0 {
		return lines[:min(len(lines), max(rows, 0))]
	}
	lines = append([]string(nil), lines[:rows]...)
	last := &lines[rows-1]
	for Width(*last) > width-len(cutDots) {
		kept := Wrap(*last, width-len(cutDots)-1)
		if len(kept) == 0 {
			break
		}
		*last = kept[0]
	}
	*last += cutDots
	return lines
}

// TextRight writes s so that it ends before column end and returns the column
// it starts in. What does not fit right of column 0 is cut at the end of s.
func (c *Canvas) TextRight(end, row int, role theme.Role, s string) int {
	col := max(0, end-Width(s))
	c.TextMax(col, row, end-col, role, s)
	return col
}

// Paragraph writes s in r, broken at its spaces, and returns how many rows it
// took. What does not fit in r is cut, and dots say so.
func (c *Canvas) Paragraph(r Rect, role theme.Role, s string) int {
	lines := Cut(Wrap(s, r.W), r.H, r.W)
	for i, line := range lines {
		c.TextMax(r.X, r.Y+i, r.W, role, line)
	}
	return len(lines)
}

// Wrap breaks s at its spaces into lines of at most width columns, never within
// what can be typed.
func Wrap(s string, width int) []string {
	if width <= 0 {
		return nil
	}
	s = words.OneLine(s)
	if ansi.StringWidth(s) <= width {
		return []string{strings.TrimRight(words.Plain(s), " ")}
	}
	lines := strings.Split(ansi.Wrap(words.Unbroken(s), width, ""), "\n")
	for i, line := range lines {
		lines[i] = strings.TrimRight(words.Plain(line), " ")
	}
	return lines
}

// Width returns how many columns s takes when it is written.
func Width(s string) int { return ansi.StringWidth(words.OneLine(s)) }

// isPlain reports whether s is printable ASCII alone, as most words are.
func isPlain(s string) bool {
	for i := range len(s) {
		if s[i] < ' ' || s[i] > '~' {
			return false
		}
	}
	return true
}

// cluster splits the first thing off s that is seen as one character.
func cluster(s string) (g string, width int, rest string) {
	if s[0] >= ' ' && s[0] <= '~' && (len(s) == 1 || s[1] <= '~') {
		return s[:1], 1, s[1:]
	}
	g, width = ansi.FirstGraphemeCluster(s, ansi.GraphemeWidth)
	return g, width, s[len(g):]
}

// legible returns g, or what stands for it where only ASCII can be shown.
func (c *Canvas) legible(g string) string {
	if c.ASCII() && !isPlain(g) {
		return "?"
	}
	return g
}

// put sets one character of 0, 1 or 2 columns. One of 0 is left out.
func (c *Canvas) put(col, row int, g string, width int, role theme.Role) {
	l := c.at(col, row)
	if l == nil || width == 0 || (width == 2 && c.at(col+1, row) == nil) {
		return
	}
	c.sever(col, row)
	l.text, l.tail, l.solid, l.role = g, false, false, role
	if width == 2 && isPlain(g) {
		c.put(col+1, row, g, 1, role)
		return
	}
	if width == 2 {
		c.sever(col+1, row)
		*c.at(col+1, row) = cell{tail: true}
	}
}

// sever blanks the other half of a wide character that is about to be
// overwritten in part.
func (c *Canvas) sever(col, row int) {
	if l := c.at(col, row); l.tail {
		c.at(col-1, row).text = " "
		l.tail = false
	}
	if next := c.at(col+1, row); next != nil && next.tail {
		next.tail, next.text = false, " "
	}
}
