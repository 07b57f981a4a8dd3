package frame

import (
	"fmt"
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
	below := a.below(s, pal)
	lines := append(append(make([]string, 0, a.Rows), above[:a.Rows-len(below)]...), below...)
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

// remark is what is said between the rule and the line: what was not
// understood, what to beware of.
type remark struct {
	mark  string
	lines []string
}

// remarks are what is to be said there. What was not understood never takes the
// place of what to beware of.
func (a *App) remarks(f Foot, width int) (list []remark, rows int) {
	if a.Bad && a.Note != "" {
		list = append(list, remark{"?", schematic.Wrap(a.Note, width)})
	}
	if f.Caution != "" {
		list = append(list, remark{"!", schematic.Wrap(f.Caution, width)})
	}
	for _, r := range list {
		rows += len(r.lines)
	}
	return list, rows
}

// below returns the lines from the rule on: it stands higher where more is to
// be said than there are rows for, and for as long.
func (a *App) below(s Sizes, pal theme.Palette) []string {
	f := a.Top().Foot(s)
	said, rows := a.remarks(f, s.Caution.W-2)
	top := max(0, s.Rule.Y-max(0, rows-1))
	p := &Page{Canvas: schematic.New(a.cols, a.Rows-top, a.options()), Sizes: s, Pal: pal}
	up := func(r schematic.Rect) schematic.Rect { r.Y -= top; return r }
	p.Rule(s.Rule.X, 0, s.Rule.W)
	note := ""
	if a.Note != "" && !a.Bad {
		note = shortened(a.Note, s.Rule.W-6)
		p.TextMax(s.Rule.X+2, 0, s.Rule.W-4, theme.Ink, " "+note+" ")
	}
	if f.Rule != "" && schematic.Width(note)+schematic.Width(f.Rule) < s.Rule.W-10 {
		p.TextRight(s.Rule.X+s.Rule.W-2, 0, theme.Label, " "+f.Rule+" ")
	}
	row := up(s.Caution).Y + 1 - rows
	for _, r := range said {
		p.Text(s.Caution.X, row, theme.Head, r.mark)
		for _, l := range r.lines {
			p.TextMax(s.Caution.X+2, row, s.Caution.W-2, theme.Ink, l)
			row++
		}
	}
	a.input(p, up(s.Input), up(s.Understood), f)
	keys(p, up(s.Keys), f.Keys)
	return p.Lines(pal)
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
// said there, then its last clauses, until it fits.
func shortened(say string, width int) string {
	if schematic.Width(say) > width {
		from, rest, ok := strings.Cut(say, " from ")
		if _, more, clause := strings.Cut(rest, ";"); ok && clause {
			from += ";" + more
		}
		say = from
	}
	for schematic.Width(say) > width {
		i := strings.LastIndexAny(say, ";,")
		if i < 0 {
			return CutWords(say, width)
		}
		say = say[:i]
	}
	return say
}

// keys writes the keys that work, as many as find room; what escape does is
// always there.
func keys(p *Page, r schematic.Rect, ks []Key) {
	if len(ks) == 0 {
		return
	}
	width := func(k Key) int { return schematic.Width(k.F) + 1 + schematic.Width(k.Label) + 2 }
	last := ks[len(ks)-1]
	col, end := r.X, r.X+r.W+2-width(last)
	put := func(k Key) {
		col = p.Text(col, r.Y, theme.Head, k.F) + 1
		col = p.Text(col, r.Y, theme.Label, k.Label) + 2
	}
	for _, k := range ks[:len(ks)-1] {
		if col+width(k) > end {
			break
		}
		put(k)
	}
	put(last)
}
