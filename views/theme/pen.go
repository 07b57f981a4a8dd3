package theme

import (
	"strconv"
	"strings"
)

// style is what a terminal is told before a character. Colours are SGR codes,
// or index256 plus an index; 0 is the terminal's own.
type style struct {
	fore, back  int16
	bold, under bool
}

// Pen writes one line of cells after another with as few escape sequences as
// will do: one where the style changes, none between cells that share it.
type Pen struct {
	p   Palette
	b   strings.Builder
	now style
	// gap counts empty cells not yet written: at the end of a line on the
	// terminal's own ground they are never needed.
	gap int
}

// NewPen returns a pen for one line after another in palette p.
func NewPen(p Palette) *Pen { return &Pen{p: p} }

// Text writes s in role r.
func (w *Pen) Text(r Role, s string) {
	w.set(w.p.style[r])
	w.b.WriteString(s)
}

// Rune writes one character in role r.
func (w *Pen) Rune(r Role, ch rune) {
	w.set(w.p.style[r])
	w.b.WriteRune(ch)
}

// Solid writes a block in role r over a background of its own colour, so
// that fonts whose block does not fill the cell show no seams.
func (w *Pen) Solid(r Role, block string) {
	s := w.p.style[r]
	s.back = backOf(s.fore)
	w.set(s)
	w.b.WriteString(block)
}

// Blank writes one empty cell.
func (w *Pen) Blank() { w.gap++ }

// Line ends the line, returns it and leaves the pen ready for the next. The
// line carries its own style from its first character and leaves none behind.
func (w *Pen) Line() string {
	if w.p.Paints() {
		w.fill()
	}
	w.gap = 0
	if w.now != (style{}) {
		w.b.WriteString("\x1b[m")
	}
	s := w.b.String()
	w.b.Reset()
	w.now = style{}
	return s
}

// fill writes the gap. The colour and weight of text do not show in an empty
// cell and stay as they are.
func (w *Pen) fill() {
	if w.gap == 0 {
		return
	}
	w.change(style{fore: w.now.fore, back: w.p.ground, bold: w.now.bold})
	w.b.WriteString(strings.Repeat(" ", w.gap))
	w.gap = 0
}

// set writes the gap and then what has to change for style s.
func (w *Pen) set(s style) {
	w.fill()
	w.change(s)
}

// change writes what differs between the style now and s.
func (w *Pen) change(s style) {
	if s == w.now || w.p.Plain() {
		return
	}
	var codes []string
	if w.now.bold != s.bold {
		codes = append(codes, pick(s.bold, "1", "22"))
	}
	if w.now.under != s.under {
		codes = append(codes, pick(s.under, "4", "24"))
	}
	if w.now.fore != s.fore {
		codes = append(codes, code(s.fore, "38;5;", "39"))
	}
	if w.now.back != s.back {
		codes = append(codes, code(s.back, "48;5;", "49"))
	}
	w.now = s
	w.b.WriteString("\x1b[" + strings.Join(codes, ";") + "m")
}

func pick(yes bool, a, b string) string {
	if yes {
		return a
	}
	return b
}

// code writes a colour: an index after its prefix, an SGR code as it is, and
// none for the terminal's own.
func code(c int16, prefix, none string) string {
	switch {
	case c == 0:
		return none
	case c >= index256:
		return prefix + strconv.Itoa(int(c-index256))
	}
	return strconv.Itoa(int(c))
}

// backOf returns the background of the same colour as a foreground.
func backOf(fore int16) int16 {
	if fore == 0 || fore >= index256 {
		return fore
	}
	return fore + 10
}
