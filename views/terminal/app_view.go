package terminal

import (
	"fmt"
	"strings"

	"spotward/views/schematic"
	"spotward/views/terminal/theme"
)

// memo is the last drawing, for as long as nothing changes what it shows.
// Typing alone changes it only where the typed place is drawn.
type memo struct {
	key   memoKey
	lines []string
	zones []zone
}

type memoKey struct {
	version, cols, rows int
	typed               string
	theme               theme.Name
	large               bool
	aspect              float64
}

// View returns exactly as many lines as the terminal has, none wider than it.
// Before the terminal has told its size there is nothing.
func (a *app) View() (text string) {
	defer a.survive("view", func() { text = clip("something went wrong: press a key", a.cols, a.rows) })
	if a.cols <= 0 || a.rows <= 0 || len(a.stack) == 0 {
		return ""
	}
	s, ok := sizesFor(a.cols, a.rows, a.large, a.glyphs == schematic.ASCII)
	if !ok {
		return clip(fmt.Sprintf("needs %d x %d, has %d x %d", leastCols, leastRows, a.cols, a.rows), a.cols, a.rows)
	}
	pal := theme.New(a.theme, a.depth)
	lines := append(append(make([]string, 0, a.rows), a.picture(s, pal)...), a.below(s, pal)...)
	return strings.Join(lines, "\n")
}

// clip centres one plain line in a terminal of any size.
func clip(text string, cols, rows int) string {
	if cols <= 0 || rows <= 0 {
		return ""
	}
	c := schematic.New(cols, rows, schematic.Options{})
	c.TextMax(max(0, (cols-schematic.Width(text))/2), (rows-1)/2, cols, theme.Ink, text)
	return c.String(theme.Palette{})
}

// picture returns the lines above the rule.
func (a *app) picture(s sizes, pal theme.Palette) []string {
	key := memoKey{a.version, a.cols, a.rows, a.top().line.String(), a.theme, a.large, a.aspect}
	if a.memo.key == key && a.memo.lines != nil {
		return a.memo.lines
	}
	p := &page{Canvas: schematic.New(a.cols, s.Rule.Y, a.options()), sizes: s, pal: pal}
	a.top().draw(p, key.typed)
	a.memo = memo{key, p.Lines(pal), p.zones}
	return a.memo.lines
}

func (a *app) options() schematic.Options {
	return schematic.Options{Glyphs: a.glyphs, Aspect: a.aspect}
}

// below returns the lines from the rule on.
func (a *app) below(s sizes, pal theme.Palette) []string {
	top := s.Rule.Y
	p := &page{Canvas: schematic.New(a.cols, a.rows-top, a.options()), sizes: s, pal: pal}
	up := func(r schematic.Rect) schematic.Rect { r.Y -= top; return r }
	f := a.top().foot(s)
	a.noteOver(p, up(s.Rule), up(s.Caution), f)
	a.input(p, up(s.Input), up(s.Understood), f)
	keys(p, up(s.Keys), f.keys)
	return p.Lines(pal)
}

// noteOver writes the rule, with what was said back last in it, and below it
// the caution; in the caution's place what was not understood, which may take
// the rule's row as well.
func (a *app) noteOver(p *page, rule, row schematic.Rect, f foot) {
	mark, text := "!", f.caution
	if a.note != "" && a.bad {
		mark, text = "?", a.note
	}
	in := schematic.Rect{X: row.X + 2, Y: row.Y, W: row.W - 2, H: 1}
	if len(schematic.Wrap(text, in.W)) > 1 {
		in.Y, in.H = rule.Y, 2
	} else {
		p.Rule(rule.X, rule.Y, rule.W)
		if a.note != "" && !a.bad {
			p.TextMax(rule.X+2, rule.Y, rule.W-4, theme.Ink, " "+a.note+" ")
		}
	}
	if text != "" {
		p.Text(row.X, in.Y, theme.Head, mark)
		p.Paragraph(in, theme.Ink, text)
	}
}

// input writes the prompt, what is typed, the cursor, and what is understood.
func (a *app) input(p *page, row, understood schematic.Rect, f foot) {
	l := a.top().line
	col := p.at(row, theme.Label, f.prompt)
	if f.prompt != "" {
		col += 2
	}
	room := row.X + row.W - col
	if len(l.text) == 0 && understood.Y == row.Y {
		room = min(room, 1)
	}
	text, cursor := l.shown(max(1, room))
	p.TextMax(col, row.Y, max(1, room), theme.Typed, text)
	if cursor >= len([]rune(text)) {
		p.Text(col+cursor, row.Y, theme.Typed, "_")
	}
	say, role := f.hint, theme.Label
	if e, ok := a.top().screen.(echoer); ok && len(l.text) > 0 {
		if echo, ok := e.echo(l.String()); ok {
			say, role = echo, theme.You
		} else {
			say = echo
		}
	} else if len(l.text) > 0 {
		say = ""
	}
	if understood.Y != row.Y {
		p.TextMax(col, understood.Y, understood.X+understood.W-col, role, say)
		return
	}
	right := row.X + p.Cols - 2 // to the margin
	if from := col + schematic.Width(text) + 3; from+schematic.Width(say) > right {
		say, _, _ = strings.Cut(say, " from ") // from where is the same for all of them
	}
	from := max(col+schematic.Width(text)+3, right-schematic.Width(say))
	p.TextMax(from, row.Y, right-from, role, say)
}

// keys writes the keys that work, as many as find room; what escape does is
// always there.
func keys(p *page, r schematic.Rect, ks []key) {
	if len(ks) == 0 {
		return
	}
	width := func(k key) int { return schematic.Width(k.f) + 1 + schematic.Width(k.label) + 2 }
	last := ks[len(ks)-1]
	col, end := r.X, r.X+r.W+2-width(last)
	put := func(k key) {
		col = p.Text(col, r.Y, theme.Head, k.f) + 1
		col = p.Text(col, r.Y, theme.Label, k.label) + 2
	}
	for _, k := range ks[:len(ks)-1] {
		if col+width(k) > end {
			break
		}
		put(k)
	}
	put(last)
}
