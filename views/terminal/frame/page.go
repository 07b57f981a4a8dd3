package frame

import (
	"strconv"
	"strings"

	"spotward/views/schematic"
	"spotward/views/theme"
)

// Setting is how close a question is set.
type Setting uint8

const (
	Loose Setting = iota
	Tight         // without empty rows
	Bare          // without what is only good to know
)

// Page is what a screen draws on.
type Page struct {
	*schematic.Canvas
	Sizes
	Pal   theme.Palette
	zones []Zone
}

// Zone is a part of the page that the mouse may point at: what is typed when
// it does.
type Zone struct {
	schematic.Rect
	typed string
}

func (p *Page) Zone(r schematic.Rect, typed string) { p.zones = append(p.zones, Zone{r, typed}) }

func (z Zone) Holds(col, row int) bool {
	return col >= z.X && col < z.X+z.W && row >= z.Y && row < z.Y+z.H
}

// At writes text at the beginning of r, cut to its width, and returns the
// column after it.
func (p *Page) At(r schematic.Rect, role theme.Role, text string) int {
	if r.W <= 0 {
		return r.X
	}
	return p.TextMax(r.X, r.Y, r.W, role, text)
}

// ScopeName writes which scope is in hand, and that it is not there if so.
func (p *Page) ScopeName(name string, practice bool) int {
	if !practice {
		return p.At(p.Name, theme.Head, name)
	}
	sep := " · "
	if p.ASCII() {
		sep = " - "
	}
	col := p.Text(p.Name.X, p.Name.Y, theme.Head, "PRACTICE")
	return p.TextMax(col, p.Name.Y, p.Cols-1-col, theme.Head, sep+name)
}

// Flow writes text down a block.
type Flow struct {
	P   *Page
	R   schematic.Rect // what is left of the block
	top int            // rows above are not drawn
}

func (p *Page) Flow(r schematic.Rect) *Flow { return &Flow{P: p, R: r} }

// From leaves out what would stand above a row: that part was read.
func (f *Flow) From(row int) { f.top = row }

// Skip leaves rows empty.
func (f *Flow) Skip(rows int) {
	rows = min(rows, f.R.H)
	f.R.Y, f.R.H = f.R.Y+rows, f.R.H-rows
}

// Say writes a paragraph.
func (f *Flow) Say(role theme.Role, text string) {
	if f.R.H > 0 {
		f.Skip(f.paragraph(f.R, role, text))
	}
}

// paragraph writes text in r, but for the rows that are not drawn.
func (f *Flow) paragraph(r schematic.Rect, role theme.Role, text string) int {
	lines := schematic.Cut(schematic.Wrap(text, r.W), r.H, r.W)
	for i, l := range lines {
		if r.Y+i >= f.top {
			f.P.TextMax(r.X, r.Y+i, r.W, role, l)
		}
	}
	return len(lines)
}

// Heading writes a heading, set off by capitals where there is no bold.
func (f *Flow) Heading(text string) { f.Say(theme.Head, f.P.Pal.Heading(text)) }

// Item writes a paragraph that hangs on a mark.
func (f *Flow) Item(markRole theme.Role, mark string, role theme.Role, text string) {
	if f.R.H <= 0 {
		return
	}
	in := schematic.Width(mark) + 1
	if f.R.Y >= f.top {
		f.P.TextMax(f.R.X, f.R.Y, f.R.W, markRole, mark)
	}
	f.Skip(f.paragraph(schematic.Rect{X: f.R.X + in, Y: f.R.Y, W: f.R.W - in, H: f.R.H}, role, text))
}

// Option writes a numbered answer that the mouse may point at.
func (f *Flow) Option(n int, text string) {
	from := f.R
	f.Item(theme.Act, strconv.Itoa(n), theme.Ink, text)
	f.P.Zone(schematic.Rect{X: from.X, Y: from.Y, W: from.W, H: f.R.Y - from.Y}, strconv.Itoa(n))
}

// Fits reports whether a list of paragraphs, each indented, fits what is left.
func (f *Flow) Fits(texts []string, indent int) bool {
	rows := 0
	for _, t := range texts {
		rows += len(schematic.Wrap(t, f.R.W-indent))
	}
	return rows <= f.R.H
}

// Pair writes a label and what it is, side by side.
func (f *Flow) Pair(labelCols int, label, text string) {
	if f.R.H <= 0 {
		return
	}
	f.P.TextMax(f.R.X, f.R.Y, labelCols, theme.Label, label)
	f.Skip(f.paragraph(schematic.Rect{X: f.R.X + labelCols, Y: f.R.Y, W: f.R.W - labelCols, H: f.R.H}, theme.Ink, text))
}

// bar writes a bar between a mark and what it says.
func (f *Flow) bar(mark string, bar schematic.BarSpec, text string) {
	const wide = 12
	if f.R.H <= 0 {
		return
	}
	if in := schematic.Width(mark) + 1; f.R.Y >= f.top {
		f.P.TextMax(f.R.X, f.R.Y, f.R.W, theme.Label, mark)
		f.P.Bar(f.R.X+in, f.R.Y, wide, bar)
		f.P.TextMax(f.R.X+in+wide+1, f.R.Y, f.R.W-in-wide-1, theme.Ink, text)
	}
	f.Skip(1)
}

// Middle writes a text about a column.
func (p *Page) Middle(col, row, width int, role theme.Role, text string) {
	w := min(schematic.Width(text), width)
	p.TextMax(max(0, col-w/2), row, width, role, text)
}

// Gap leaves a row empty where there is room for it.
func (f *Flow) Gap(set Setting) {
	if set == Loose {
		f.Skip(1)
	}
}

// CutWords keeps as many whole words as fit a width.
func CutWords(text string, width int) string {
	if lines := schematic.Wrap(text, width); len(lines) > 0 {
		return lines[0]
	}
	return ""
}

// Pad makes a mark as wide as the others of its list.
func Pad(s string, cols int) string {
	return s + strings.Repeat(" ", max(0, cols-schematic.Width(s)))
}
