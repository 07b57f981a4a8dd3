package terminal

import (
	"cmp"
	"fmt"

	tea "github.com/charmbracelet/bubbletea"

	"spotward/views/schematic"
	"spotward/views/theme"
)

// sheet is text to read, a screenful after the other, with a drawing beside it
// where there is room.
type sheet struct {
	title  string
	parts  []part
	draws  func(p *page) // on the left; nil = text alone
	from   int           // the first row shown
	rows   int           // shown at once, as last drawn
	height int           // of the whole text
}

// part is a piece of a sheet: a heading, a paragraph, or a word with what it
// does.
type part struct {
	head string
	mark string
	role theme.Role // of the mark; the zero Role is act
	text string
	bar  *schematic.BarSpec // between mark and text
}

func (s *sheet) draw(p *page, _ string) {
	p.at(p.name, theme.Head, p.pal.Heading(s.title))
	r := schematic.Rect{X: 1, Y: 2, W: min(p.Cols-2, 100), H: p.sizes.Rule.Y - 2}
	if s.draws != nil && !p.narrow() {
		s.draws(p)
		r.X = p.column.X
		r.W = p.Cols - 1 - r.X
	}
	over := &page{Canvas: schematic.New(0, 0, schematic.Options{}), sizes: p.sizes, pal: p.pal}
	f := over.flow(schematic.Rect{X: 0, Y: 0, W: r.W, H: maxSheet})
	s.write(f)
	s.height, s.rows = f.r.Y, r.H
	s.from = max(0, min(s.from, s.height-s.rows))
	shift := p.flow(schematic.Rect{X: r.X, Y: r.Y - s.from, W: r.W, H: maxSheet})
	shift.from(r.Y)
	s.write(shift)
}

// maxSheet is more rows than any sheet has.
const maxSheet = 400

func (s *sheet) write(f *flow) {
	for i, t := range s.parts {
		switch {
		case t.head != "":
			if i > 0 {
				f.skip(1)
			}
			f.heading(t.head)
		case t.bar != nil:
			f.bar(t.mark, *t.bar, t.text)
		case t.mark != "":
			f.item(cmp.Or(t.role, theme.Act), t.mark, theme.Ink, t.text)
		default:
			f.say(theme.Ink, t.text)
		}
	}
}

func (s *sheet) more() bool { return s.from+s.rows < s.height }

func (s *sheet) foot(sizes) foot {
	f := foot{prompt: "read?", hint: "Enter closes it", keys: footer("close", "close", "theme")}
	if s.more() {
		f = foot{prompt: "more?", hint: "Enter reads on", keys: footer("read on", "close", "theme")}
	}
	if s.more() || s.from > 0 {
		by := max(1, s.rows-1)
		f.rule = fmt.Sprintf("%d of %d", 1+(s.from+by-1)/by, 1+(max(0, s.height-s.rows)+by-1)/by)
		f.keys = append([]key{f.keys[0], {"up down", "", "a row"}}, f.keys[1:]...)
	}
	return f
}

// stepKey reads on or back by rows and by screenfuls.
func (s *sheet) stepKey(a *app, k tea.KeyType) bool {
	page := max(1, s.rows-1)
	by, ok := map[tea.KeyType]int{tea.KeyUp: -1, tea.KeyDown: 1, tea.KeyPgUp: -page, tea.KeyPgDown: page,
		tea.KeyHome: -s.height, tea.KeyEnd: s.height}[k]
	if ok {
		s.from = max(0, min(s.from+by, s.height-s.rows))
		a.version++
	}
	return ok
}

func (s *sheet) take(a *app, text string) tea.Cmd {
	if a.fromLine && text == "" && s.more() {
		s.from += max(1, s.rows-1)
		return nil
	}
	return a.pop()
}

func (s *sheet) esc(a *app) { a.pop() }

// list adds texts under a heading, each behind a mark; none adds nothing.
func (s *sheet) list(head, mark string, texts []string) {
	if len(texts) == 0 {
		return
	}
	s.parts = append(s.parts, part{head: head})
	for _, t := range texts {
		s.parts = append(s.parts, part{mark: mark, text: t})
	}
}
