package terminal

import (
	"strconv"

	"spotward/views/schematic"
	"spotward/views/theme"
)

// page is what a screen draws on.
type page struct {
	*schematic.Canvas
	sizes
	pal   theme.Palette
	zones []zone
}

// zone is a part of the page that the mouse may point at: what is typed when
// it does.
type zone struct {
	schematic.Rect
	typed string
}

func (p *page) zone(r schematic.Rect, typed string) { p.zones = append(p.zones, zone{r, typed}) }

func (z zone) holds(col, row int) bool {
	return col >= z.X && col < z.X+z.W && row >= z.Y && row < z.Y+z.H
}

// at writes text at the beginning of r, cut to its width, and returns the
// column after it.
func (p *page) at(r schematic.Rect, role theme.Role, text string) int {
	if r.W <= 0 {
		return r.X
	}
	return p.TextMax(r.X, r.Y, r.W, role, text)
}

// scopeName writes which scope is in hand, and that it is not there if so.
func (p *page) scopeName(name string, practice bool) int {
	if !practice {
		return p.at(p.name, theme.Head, name)
	}
	sep := " · "
	if p.ASCII() {
		sep = " - "
	}
	col := p.Text(p.name.X, p.name.Y, theme.Head, "PRACTICE")
	return p.TextMax(col, p.name.Y, p.Cols-1-col, theme.Head, sep+name)
}

// flow writes text down a block.
type flow struct {
	p   *page
	r   schematic.Rect // what is left of the block
	top int            // rows above are not drawn
}

func (p *page) flow(r schematic.Rect) *flow { return &flow{p: p, r: r} }

// from leaves out what would stand above a row: that part was read.
func (f *flow) from(row int) { f.top = row }

// skip leaves rows empty.
func (f *flow) skip(rows int) {
	rows = min(rows, f.r.H)
	f.r.Y, f.r.H = f.r.Y+rows, f.r.H-rows
}

// say writes a paragraph.
func (f *flow) say(role theme.Role, text string) {
	if f.r.H > 0 {
		f.skip(f.paragraph(f.r, role, text))
	}
}

// paragraph writes text in r, but for the rows that are not drawn.
func (f *flow) paragraph(r schematic.Rect, role theme.Role, text string) int {
	lines := schematic.Wrap(text, r.W)
	for i, l := range lines[:min(len(lines), r.H)] {
		if r.Y+i >= f.top {
			f.p.TextMax(r.X, r.Y+i, r.W, role, l)
		}
	}
	return min(len(lines), r.H)
}

// heading writes a heading, set off by capitals where there is no bold.
func (f *flow) heading(text string) { f.say(theme.Head, f.p.pal.Heading(text)) }

// item writes a paragraph that hangs on a mark.
func (f *flow) item(markRole theme.Role, mark string, role theme.Role, text string) {
	if f.r.H <= 0 {
		return
	}
	in := schematic.Width(mark) + 1
	if f.r.Y >= f.top {
		f.p.TextMax(f.r.X, f.r.Y, f.r.W, markRole, mark)
	}
	f.skip(f.paragraph(schematic.Rect{X: f.r.X + in, Y: f.r.Y, W: f.r.W - in, H: f.r.H}, role, text))
}

// option writes a numbered answer that the mouse may point at.
func (f *flow) option(n int, text string) {
	from := f.r
	f.item(theme.Act, strconv.Itoa(n), theme.Ink, text)
	f.p.zone(schematic.Rect{X: from.X, Y: from.Y, W: from.W, H: f.r.Y - from.Y}, strconv.Itoa(n))
}

// fits reports whether a list of paragraphs, each indented, fits what is left.
func (f *flow) fits(texts []string, indent int) bool {
	rows := 0
	for _, t := range texts {
		rows += len(schematic.Wrap(t, f.r.W-indent))
	}
	return rows <= f.r.H
}

// pair writes a label and what it is, side by side.
func (f *flow) pair(labelCols int, label, text string) {
	if f.r.H <= 0 {
		return
	}
	f.p.TextMax(f.r.X, f.r.Y, labelCols, theme.Label, label)
	f.skip(f.paragraph(schematic.Rect{X: f.r.X + labelCols, Y: f.r.Y, W: f.r.W - labelCols, H: f.r.H}, theme.Ink, text))
}

// bar writes a bar between a mark and what it says.
func (f *flow) bar(mark string, bar schematic.BarSpec, text string) {
	const wide = 12
	if f.r.H <= 0 {
		return
	}
	if in := schematic.Width(mark) + 1; f.r.Y >= f.top {
		f.p.TextMax(f.r.X, f.r.Y, f.r.W, theme.Label, mark)
		f.p.Bar(f.r.X+in, f.r.Y, wide, bar)
		f.p.TextMax(f.r.X+in+wide+1, f.r.Y, f.r.W-in-wide-1, theme.Ink, text)
	}
	f.skip(1)
}

// middle writes a text about a column.
func (p *page) middle(col, row, width int, role theme.Role, text string) {
	w := min(schematic.Width(text), width)
	p.TextMax(max(0, col-w/2), row, width, role, text)
}

// gap leaves a row empty where there is room for it.
func (f *flow) gap(set setting) {
	if set == loose {
		f.skip(1)
	}
}

// cutWords keeps as many whole words as fit a width.
func cutWords(text string, width int) string {
	if lines := schematic.Wrap(text, width); len(lines) > 0 {
		return lines[0]
	}
	return ""
}
