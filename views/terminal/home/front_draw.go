package home

import (
	"strconv"
	"strings"

	"spotward/views/schematic"
	"spotward/views/terminal/frame"
	"spotward/views/theme"
)

func (f *Front) Draw(p *frame.Page, _ string) {
	p.TextMax(1, 0, p.Cols-2, theme.Head, p.Pal.Heading("spotward"))
	p.TextRight(p.Cols-1, 0, theme.Label, "two mirrors, one laser, one screw at a time")
	n, row := 0, 2
	name := 14
	what := 26
	for i, g := range f.groups() {
		if i > 0 {
			row++
		}
		f.line(p, row, theme.Label, p.Pal.Heading(g.head))
		if g.cols[2] != "" && !p.Narrow() && g.says(2) {
			f.column(p, row, 5+name+what, theme.Label, g.cols[2])
		}
		row++
		for _, e := range g.entries {
			n++
			if y := row - f.from; y > 1 && y < p.Sizes.Rule.Y {
				p.TextRight(3, y, theme.Act, strconv.Itoa(n))
				p.TextMax(4, y, name, theme.Head, e.cols[0])
				long := p.Cols - 6 - name
				if e.cols[2] != "" && !p.Narrow() {
					long = min(long, what)
				}
				p.TextMax(5+name, y, long, theme.Ink, e.cols[1])
				if !p.Narrow() {
					p.TextMax(5+name+what, y, p.Cols-6-name-what, theme.Label, wholeClauses(e.cols[2], p.Cols-6-name-what))
				}
				p.Zone(schematic.Rect{X: 1, Y: y, W: p.Cols - 2, H: 1}, strconv.Itoa(n))
			}
			row++
		}
	}
	f.rows, f.height = p.Sizes.Rule.Y, row
	if row-f.from <= p.Sizes.Rule.Y-4 && len(f.scopes) == 1 && len(f.last) == 0 {
		hint := p.Flow(schematic.Rect{X: 1, Y: row - f.from + 1, W: min(76, p.Cols-2), H: p.Sizes.Rule.Y - row + f.from - 1})
		hint.Say(theme.Ink, "New here? Press Enter twice. Dunlin is not real: it shows what you would see. You say where the spot is and are told which screw to turn.")
	}
}

// wholeClauses leaves out the last of what commas part, until the rest fits.
func wholeClauses(text string, width int) string {
	for schematic.Width(text) > width {
		i := strings.LastIndex(text, ", ")
		if i < 0 {
			break
		}
		text = text[:i]
	}
	return text
}

func (f *Front) line(p *frame.Page, row int, role theme.Role, text string) {
	f.column(p, row, 1, role, text)
}

func (f *Front) column(p *frame.Page, row, col int, role theme.Role, text string) {
	if y := row - f.from; y > 1 && y < p.Sizes.Rule.Y {
		p.TextMax(col, y, p.Cols-1-col, role, text)
	}
}
