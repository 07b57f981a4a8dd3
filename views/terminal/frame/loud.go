package frame

import (
	"spotward/views/schematic"
	"spotward/views/theme"
)

// Loud writes a sentence for the back row: in the largest letters in which all
// of it has room in so many rows of what is left. Where the screen is not the
// projector's, or nothing large has room, it is written as a heading.
func (f *Flow) Loud(role theme.Role, text string, rows int) {
	size, lines, ok := f.P.loudFit(text, f.R.W, min(rows, f.R.H))
	if !ok || !f.P.Projector {
		f.Say(theme.Head, text)
		return
	}
	high := f.P.loudRows(size)
	for _, l := range lines {
		f.P.Big(f.R.X, f.R.Y, schematic.BigSpec{Text: l, Size: size, Role: role})
		f.Skip(high)
	}
}

// LoudRows is how many rows Loud would take.
func (f *Flow) LoudRows(text string, rows int) int {
	size, lines, ok := f.P.loudFit(text, f.R.W, min(rows, f.R.H))
	if !ok || !f.P.Projector {
		return len(schematic.Wrap(text, f.R.W))
	}
	return len(lines) * f.P.loudRows(size)
}

// loudFit returns the largest letters in which a text has room.
func (p *Page) loudFit(text string, width, rows int) (schematic.BigSize, []string, bool) {
	for _, size := range []schematic.BigSize{schematic.SmallDouble, schematic.Small, schematic.Slim} {
		lines, ok := p.BigWrap(text, width, size)
		if ok && len(lines)*p.loudRows(size) <= rows {
			return size, lines, true
		}
	}
	return 0, nil, false
}

// loudRows is how many rows a line of big letters takes, with what parts it from
// the next.
func (p *Page) loudRows(size schematic.BigSize) int {
	rows := p.BigRows(size)
	if size != schematic.Slim || p.ASCII() { // its last half row is empty
		rows++
	}
	return rows
}
