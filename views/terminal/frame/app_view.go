package frame

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"spotward/views/schematic"
	"spotward/views/theme"
)

// memo is the last drawing, for as long as nothing changes what it shows.
// Typing alone changes it only where the typed place is drawn.
type memo struct {
	key   memoKey
	lines []string
	Zones []Zone
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
func (a *App) View() (text string) {
	defer a.survive("view", func() { text = clip("something went wrong: press a key", a.cols, a.Rows) })
	if a.cols <= 0 || a.Rows <= 0 || len(a.Stack) == 0 {
		return ""
	}
	s, ok := SizesFor(a.cols, a.Rows, a.Large, a.Glyphs == schematic.ASCII)
	if !ok {
		return clip(fmt.Sprintf("needs %d x %d, has %d x %d", LeastCols, LeastRows, a.cols, a.Rows), a.cols, a.Rows)
	}
	pal := theme.New(a.Theme, a.Depth)
	above := a.picture(s, pal) // first: what stands below depends on what found room
	return strings.Join(append(above[:len(above):len(above)], a.below(s, pal)...), "\n")
}

// working leaves out the key for large letters where the window has no room for
// them.
func (a *App) working(ks []Key) []Key {
	if s, ok := SizesFor(a.cols, a.Rows, true, false); ok && s.Projector {
		return ks
	}
	return slices.DeleteFunc(slices.Clone(ks), func(k Key) bool { return k.Word == "large" })
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
func (a *App) picture(s Sizes, pal theme.Palette) []string {
	key := memoKey{a.Version, a.cols, a.Rows, a.Top().Line.String(), a.Theme, a.Large, a.aspect}
	if a.Memo.key == key && a.Memo.lines != nil {
		return a.Memo.lines
	}
	p := &Page{Canvas: schematic.New(a.cols, s.Rule.Y, a.options()), Sizes: s, Pal: pal}
	a.Top().Draw(p, key.typed)
	a.Memo = memo{key, p.Lines(pal), p.zones}
	return a.Memo.lines
}

func (a *App) options() schematic.Options {
	return schematic.Options{Glyphs: a.Glyphs, Aspect: a.aspect}
}

// below returns the lines from the rule on. There are always as many of them,
// so that nothing above ever moves: what was not understood stands over the
// caution, in the rule where there is no other row for it, and the caution gives
// way to its short form, never to nothing.
func (a *App) below(s Sizes, pal theme.Palette) []string {
	f := a.Top().Foot(s)
	f.Keys = a.working(f.Keys)
	top := s.Rule.Y
	p := &Page{Canvas: schematic.New(a.cols, a.Rows-top, a.options()), Sizes: s, Pal: pal}
	up := func(r schematic.Rect) schematic.Rect { r.Y -= top; return r }
	p.Rule(s.Rule.X, 0, s.Rule.W)
	a.onRule(p, f)
	at := up(s.Caution)
	wide := at.W - 2
	if bad := a.badLines(wide, at.H); len(bad) > 0 {
		row := at.Y
		if at.H == 1 || len(bad) > 1 { // the rule's row too
			row = 0
			p.TextMax(0, 0, p.Cols, theme.Ink, strings.Repeat(" ", p.Cols))
		}
		p.remark(at.X, row, "?", bad)
		at.Y, at.H = row+len(bad), at.Y+at.H-row-len(bad)
	}
	if lines := f.cautionLines(wide, at.H); len(lines) > 0 {
		p.remark(at.X, at.Y, "!", lines)
	}
	a.input(p, up(s.Input), up(s.Understood), f)
	keys(p, up(s.Keys), f.Keys)
	return p.Lines(pal)
}

// onRule writes in the rule what was understood, and what holds whatever is
// asked.
func (a *App) onRule(p *Page, f Foot) {
	r := p.Sizes.Rule
	note := ""
	if a.Note != "" && !a.Bad {
		note = shortened(a.Note, r.W-6)
		p.TextMax(r.X+2, 0, r.W-4, theme.Ink, " "+note+" ")
	}
	if f.Rule != "" && schematic.Width(note)+schematic.Width(f.Rule) < r.W-10 {
		p.TextRight(r.X+r.W-2, 0, theme.Label, " "+f.Rule+" ")
	}
}

// badLines are the rows of what was not understood: as many as the caution has, with
// as many of its clauses as they hold. What may be typed instead goes before the
// reason.
func (a *App) badLines(width, rows int) []string {
	if !a.Bad || a.Note == "" {
		return nil
	}
	rows = max(rows, 1)
	part, why, quoted := strings.Cut(a.Note, "\": ")
	why, list, shown := strings.Cut(why, " say ")
	if quoted && shown {
		first, _, _ := strings.Cut(why, ". ")
		for _, reason := range []string{why, first + ";", ""} {
			lines := clauses(strings.TrimSpace(part+"\": "+reason)+" say "+list, width, rows)
			if strings.Contains(strings.Join(lines, " "), " say ") {
				return lines
			}
		}
	}
	return clauses(a.Note, width, rows)
}

// clauses are the rows of a text that is cut after a clause where it does not fit.
func clauses(text string, width, rows int) []string {
	lines := schematic.Wrap(text, width)
	for kept := lines; ; kept = schematic.Wrap(text, width) {
		if len(kept) <= rows {
			return kept
		}
		at := max(strings.LastIndex(text, ", "), strings.LastIndex(text, " or "), strings.LastIndex(text, "; "), strings.LastIndex(text, ". "))
		if at < 0 {
			return schematic.Cut(lines, rows, width)
		}
		text = text[:at]
	}
}

// cautionLines are the rows of the caution: as it is where that has room, else
// its short form, in a row.
func (f Foot) cautionLines(width, rows int) []string {
	if f.Caution == "" {
		return nil
	}
	if lines := schematic.Wrap(f.Caution, width); len(lines) <= rows {
		return lines
	}
	return schematic.Cut(schematic.Wrap(cmp.Or(f.Brief, f.Caution), width), max(rows, 1), width)
}

// remark writes rows of text behind a mark.
func (p *Page) remark(col, row int, mark string, lines []string) {
	p.Text(col, row, theme.Head, mark)
	for i, l := range lines {
		p.TextMax(col+2, row+i, p.Cols-1-col-2, theme.Ink, l)
	}
}

// input writes the prompt, what is typed, the cursor, and what is understood.
func (a *App) input(p *Page, row, understood schematic.Rect, f Foot) {
	l := a.Top().Line
	col := p.At(row, theme.Label, f.Prompt)
	if f.Prompt != "" {
		col += 2
	}
	room := row.X + row.W - col
	if l.empty() && understood.Y == row.Y {
		room = min(room, 1)
	}
	text, cursor := l.shown(max(1, room))
	if h, ok := a.Top().Screen.(hider); ok && h.Hides() {
		text = strings.Repeat("*", len([]rune(text)))
	}
	typed := theme.Typed
	if l.refused {
		typed = theme.Label
	}
	p.TextMax(col, row.Y, max(1, room), typed, text)
	if cursor >= len([]rune(text)) {
		p.Text(col+cursor, row.Y, theme.Typed, "_")
	}
	say, role := f.Hint, theme.Label
	if l.refused {
		say = "edit it, or Ctrl-U clears it"
	} else if e, ok := a.Top().Screen.(echoer); ok && !l.empty() {
		if echo, ok := e.Echo(l.String()); ok {
			say, role = echo, theme.You
		} else {
			say = echo
		}
	} else if !l.empty() {
		say = ""
	}
	if understood.Y != row.Y {
		p.TextMax(col, understood.Y, understood.X+understood.W-col, role, say)
		return
	}
	right := row.X + p.Cols - 2 // to the margin
	say = shortened(say, right-col-schematic.Width(text)-3)
	from := max(col+schematic.Width(text)+3, right-schematic.Width(say))
	p.TextMax(from, row.Y, right-from, role, say)
}

// shortened leaves out of what was understood what is the same for all that is
// said there, then its last clauses, until it fits. Of a list that is cut the rest is
// marked by dots: what is left out of it was said as well.
func shortened(say string, width int) string {
	if schematic.Width(say) > width {
		from, rest, ok := strings.Cut(say, " from ")
		if _, more, clause := strings.Cut(rest, ";"); ok && clause {
			from += ";" + more
		}
		say = from
	}
	dots := ""
	for schematic.Width(say+dots) > width {
		i := strings.LastIndexAny(say, ";,")
		if i < 0 {
			return CutWords(say, width)
		}
		if say[i] == ',' {
			dots = "..."
		}
		say = say[:i]
	}
	return say + dots
}

// keys writes the keys that work, as many as find room: what escape does, the
// way to make it safe and the way to take something back are always there.
func keys(p *Page, r schematic.Rect, ks []Key) {
	room := r.W + 2
	width := func(k Key) int { return schematic.Width(k.F) + 1 + schematic.Width(k.Label) + 2 }
	kept := make([]bool, len(ks))
	keep := func(i int) {
		if !kept[i] && width(ks[i]) <= room {
			kept[i] = true
			room -= width(ks[i])
		}
	}
	for i, k := range ks {
		if i == 0 || i == len(ks)-1 || k.Word == "stop safely" || k.Word == "undo" {
			keep(i)
		}
	}
	for i := range ks {
		keep(i)
	}
	col := r.X
	for i, k := range ks {
		if kept[i] {
			col = p.Text(col, r.Y, theme.Head, k.F) + 1
			col = p.Text(col, r.Y, theme.Label, k.Label) + 2
		}
	}
}
