package frame

import (
	"cmp"
	"fmt"

	tea "github.com/charmbracelet/bubbletea"

	"spotward/views/schematic"
	"spotward/views/theme"
)

// Sheet is text to read, a screenful after the other, with a drawing beside it
// where there is room.
type Sheet struct {
	Title  string
	Parts  []Part
	Draws  func(p *Page) // on the left; nil = text alone
	isHelp bool          // what the words mean is behind it
	from   int           // the first row shown
	rows   int           // shown at once, as last drawn
	height int           // of the whole text
}

// Part is a piece of a sheet: a heading, a paragraph, or a word with what it
// does.
type Part struct {
	Head string
	Mark string
	Role theme.Role // of the mark; the zero Role is act
	Text string
	Bar  *schematic.BarSpec // between mark and text
}

func (s *Sheet) Draw(p *Page, _ string) {
	p.TextMax(p.Name.X, p.Name.Y, p.Cols-2, theme.Head, p.Pal.Heading(s.Title))
	r := schematic.Rect{X: 1, Y: 2, W: min(p.Cols-2, 100), H: p.Sizes.Rule.Y - 2}
	if s.Draws != nil && !p.Narrow() {
		s.Draws(p)
		r.X = p.Column.X
		r.W = p.Cols - 1 - r.X
	}
	over := &Page{Canvas: schematic.New(0, 0, schematic.Options{}), Sizes: p.Sizes, Pal: p.Pal}
	f := over.Flow(schematic.Rect{X: 0, Y: 0, W: r.W, H: MaxSheet})
	s.Write(f)
	s.height, s.rows = f.R.Y, r.H
	s.from = max(0, min(s.from, s.height-s.rows))
	shift := p.Flow(schematic.Rect{X: r.X, Y: r.Y - s.from, W: r.W, H: MaxSheet})
	shift.From(r.Y)
	s.Write(shift)
}

// MaxSheet is more rows than any sheet has.
const MaxSheet = 400

func (s *Sheet) Write(f *Flow) {
	for i, t := range s.Parts {
		switch {
		case t.Head != "":
			if i > 0 {
				f.Skip(1)
			}
			f.Heading(t.Head)
		case t.Bar != nil:
			f.bar(t.Mark, *t.Bar, t.Text)
		case t.Mark != "":
			f.Item(cmp.Or(t.Role, theme.Act), t.Mark, theme.Ink, t.Text)
		default:
			f.Say(theme.Ink, t.Text)
		}
	}
}

func (s *Sheet) more() bool { return s.from+s.rows < s.height }

func (s *Sheet) Foot(Sizes) Foot {
	f := Foot{Prompt: "read?", Hint: "Enter closes it", Keys: Footer("close", "close", "theme")}
	if s.more() {
		f = Foot{Prompt: "more?", Hint: "Enter reads on", Keys: Footer("read on", "close", "theme")}
	}
	if s.isHelp {
		f.Keys = append(f.Keys[:1:1], append([]Key{{"F1", "", "words"}}, f.Keys[1:]...)...)
	}
	if s.more() || s.from > 0 {
		by := max(1, s.rows-1)
		f.Rule = fmt.Sprintf("%d of %d", 1+(s.from+by-1)/by, 1+(max(0, s.height-s.rows)+by-1)/by)
		f.Keys = append([]Key{f.Keys[0], {"up down", "", "a row"}}, f.Keys[1:]...)
	}
	return f
}

// StepKey reads on or back by rows and by screenfuls.
func (s *Sheet) StepKey(a *App, k tea.KeyType) bool {
	page := max(1, s.rows-1)
	by, ok := map[tea.KeyType]int{tea.KeyUp: -1, tea.KeyDown: 1, tea.KeyPgUp: -page, tea.KeyPgDown: page,
		tea.KeyHome: -s.height, tea.KeyEnd: s.height}[k]
	if ok {
		s.from = max(0, min(s.from+by, s.height-s.rows))
		a.Version++
	}
	return ok
}

func (s *Sheet) Take(a *App, text string) tea.Cmd {
	if a.FromLine && text == "" && s.more() {
		s.from += max(1, s.rows-1)
		return nil
	}
	return a.Pop()
}

func (s *Sheet) Esc(a *App) { a.Pop() }

// List adds texts under a heading, each behind a mark; none adds nothing.
func (s *Sheet) List(head, mark string, texts []string) {
	if len(texts) == 0 {
		return
	}
	s.Parts = append(s.Parts, Part{Head: head})
	for _, t := range texts {
		s.Parts = append(s.Parts, Part{Mark: mark, Text: t})
	}
}
