package theme

import (
	"strings"

	"github.com/charmbracelet/lipgloss"
)

// Pen writes one line of cells after another. Cells that share a style are one
// run, and a run is painted as one.
type Pen struct {
	p   Palette
	b   strings.Builder
	run strings.Builder
	now cellStyle
	// gap counts empty cells not yet written: at the end of a line on the
	// terminal's own ground they are never needed.
	gap int
}

// cellStyle is how a cell is painted: as its role is, or solid, over a
// background of its own colour. The zero cellStyle is the ground.
type cellStyle struct {
	role  Role
	solid bool
}

// NewPen returns a pen for one line after another in palette p.
func NewPen(p Palette) *Pen { return &Pen{p: p} }

// Text writes s in role r.
func (w *Pen) Text(r Role, s string) {
	w.set(cellStyle{role: r})
	w.run.WriteString(s)
}

// Rune writes one character in role r.
func (w *Pen) Rune(r Role, ch rune) {
	w.set(cellStyle{role: r})
	w.run.WriteRune(ch)
}

// Solid writes a block in role r over a background of its own colour, so
// that fonts whose block does not fill the cell show no seams.
func (w *Pen) Solid(r Role, block string) {
	w.set(cellStyle{r, true})
	w.run.WriteString(block)
}

// Blank writes one empty cell.
func (w *Pen) Blank() { w.gap++ }

// Line ends the line, returns it and leaves the pen ready for the next. The
// line carries its own style from its first character and leaves none behind.
func (w *Pen) Line() string {
	if w.p.Paints() {
		w.fill()
	}
	w.flush()
	w.gap = 0
	s := w.b.String()
	w.b.Reset()
	w.now = cellStyle{}
	return s
}

// fill writes the gap. The colour and weight of text do not show in an empty
// cell, so it goes on in the style of the run, unless that would show.
func (w *Pen) fill() {
	if w.gap == 0 {
		return
	}
	if w.now.solid || w.p.looks[w.now.role].under {
		w.change(cellStyle{})
	}
	w.run.WriteString(strings.Repeat(" ", w.gap))
	w.gap = 0
}

// set writes the gap and goes on in style s.
func (w *Pen) set(s cellStyle) {
	w.fill()
	w.change(s)
}

func (w *Pen) change(s cellStyle) {
	if s != w.now {
		w.flush()
		w.now = s
	}
}

// flush paints the run that was written.
func (w *Pen) flush() {
	if w.run.Len() == 0 {
		return
	}
	w.b.WriteString(w.p.render(w.now, w.run.String()))
	w.run.Reset()
}

// render paints a run.
func (p Palette) render(s cellStyle, text string) string {
	switch {
	case p.Plain(), s.role == Ground && !p.Paints():
		return text
	case s.solid:
		return p.brushes.solid[s.role].paint(text)
	}
	return p.brushes.text[s.role].paint(text)
}

// brush is a style as what stands before and behind a text that it paints: a screen
// has hundreds of runs, and a style works out the same two for each.
type brush struct{ before, behind string }

func (b brush) paint(text string) string { return b.before + text + b.behind }

// brushOf returns the brush of a style that changes nothing of a text.
func brushOf(s lipgloss.Style) brush {
	before, behind, _ := strings.Cut(s.Render("x"), "x")
	return brush{before, behind}
}

// styleOf makes a look into a style of renderer r, over a ground if there is
// one.
func styleOf(r *lipgloss.Renderer, l look, ground lipgloss.TerminalColor) lipgloss.Style {
	s := r.NewStyle().Inline(true)
	if ground != nil {
		s = s.Background(ground)
	}
	if l.given() {
		s = s.Foreground(l.colour(r.ColorProfile()))
	}
	if l.bold {
		s = s.Bold(true)
	}
	if l.under {
		s = s.Underline(true)
	}
	return s
}
