package frame

import (
	"strings"

	"spotward/views/schematic"
	"spotward/views/theme"
)

// Loud writes a sentence for the back row: in the largest letters in which all
// of it has room in so many rows of what is left. Where the screen is not the
// projector's, or nothing large has room, it is written as a heading.
func (f *Flow) Loud(role theme.Role, text string, rows int) {
	size, lines, ok := f.P.loudFit(text, f.R.W, min(rows, f.R.H))
	if !ok {
		f.Say(theme.Head, text)
		return
	}
	high := f.P.loudRows(size)
	for _, l := range lines {
		f.P.Big(f.R.X, f.R.Y, schematic.BigSpec{Text: l, Size: size, Role: role})
		f.Skip(high)
	}
}

// Question writes what is asked: on the projector the question itself for the
// back row, in at most so many rows, and what stands before and after it as
// text.
func (f *Flow) Question(text string, rows int) {
	if !f.P.Projector {
		f.Say(theme.Head, text)
		return
	}
	before, crux, after := Crux(text)
	if before == "" && after == "" { // nothing is asked: where all of it is too much, its first sentence
		if first := strings.Index(crux, ". "); first > 0 && f.loud(crux, rows) == nil {
			crux, after = crux[:first+1], crux[first+2:]
			rows -= len(schematic.Wrap(after, f.R.W))
		}
	}
	if before != "" {
		f.Say(theme.Head, before)
		if f.loud(crux, rows-1) != nil {
			f.Skip(1)
		}
	}
	f.Loud(theme.Ink, crux, rows)
	if after != "" {
		f.Say(theme.Head, after)
	}
}

// loud returns the lines of a text as Loud would write it in so many rows; nil
// where it would write a heading.
func (f *Flow) loud(text string, rows int) []string {
	_, lines, ok := f.P.loudFit(text, f.R.W, min(rows, f.R.H))
	if !ok {
		return nil
	}
	return lines
}

// LoudRows is how many rows the question in a text may take of so many, so that
// the rest of the text and what is below it keep theirs.
func (f *Flow) LoudRows(text string, below int) int {
	before, _, after := Crux(text)
	return f.R.H - below - len(schematic.Wrap(before, f.R.W)) - len(schematic.Wrap(after, f.R.W))
}

// Crux parts a text at the last question in it; one that asks nothing is all
// of it the crux.
func Crux(text string) (before, crux, after string) {
	end := strings.LastIndexByte(text, '?')
	if end < 0 {
		return "", text, ""
	}
	from := 0
	for i := range end - 1 {
		if strings.IndexByte(".?!", text[i]) >= 0 && text[i+1] == ' ' {
			from = i + 2
		}
	}
	return strings.TrimSpace(text[:from]), text[from : end+1], strings.TrimSpace(text[end+1:])
}

// Typed writes what is being typed for the back row, in the largest letters
// that have room in a block; elsewhere, or where none has, nothing.
func (p *Page) Typed(r schematic.Rect, typed string) {
	if !p.Projector || typed == "" {
		return
	}
	for _, size := range []schematic.BigSize{schematic.SmallDouble, schematic.Small, schematic.Slim} {
		if lines, ok := p.BigWrap(typed, r.W, size); ok && len(lines) == 1 && p.BigRows(size) <= r.H {
			p.Big(r.X, r.Y, schematic.BigSpec{Text: lines[0], Size: size, Role: theme.You})
			return
		}
	}
}

// TypedRows are kept for what is typed at the end of a block of words on the
// projector.
const TypedRows = 4

// ForTyped parts the rows off that are kept for what is typed.
func (f *Flow) ForTyped() schematic.Rect {
	r := schematic.Rect{X: f.R.X, W: f.R.W, Y: f.R.Y + f.R.H}
	if f.P.Projector && f.R.H > 3*TypedRows {
		r.Y, r.H = r.Y-TypedRows, TypedRows
		f.R.H -= TypedRows
	}
	return r
}

// loudFit returns the largest letters in which a text has room; none where the
// screen is not the projector's.
func (p *Page) loudFit(text string, width, rows int) (schematic.BigSize, []string, bool) {
	if !p.Projector {
		return 0, nil, false
	}
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
