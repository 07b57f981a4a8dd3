package align

import (
	tea "github.com/charmbracelet/bubbletea"

	"spotward/optics"
	"spotward/session/scope"
	"spotward/session/words"
	"spotward/views/schematic"
	"spotward/views/terminal/frame"
	"spotward/views/theme"
)

// SectionOf is a telescope from its side, with no part named but its ends.
func SectionOf(t optics.Telescope) schematic.PartsSpec {
	return schematic.PartsSpec{Section: schematic.PathSpec{
		TubeMM: t.MouthMM(), SkyEndMM: t.OpenEndMM(), MirrorMM: t.ApertureMM / 2, SecondaryMM: t.MinorAxisMM / 2,
		FoldMM: t.FromPrimaryMM, HoleMM: t.HoleFromAxisMM,
	}, SkyEnd: "sky end", Behind: "behind"}
}

// named is the same with its parts named.
func named(t optics.Telescope) schematic.PartsSpec {
	spec := SectionOf(t)
	spec.Laser, spec.Focuser, spec.Secondary, spec.SecondaryScrews = "laser", "focuser", "secondary", "screws"
	spec.Card, spec.Primary, spec.Ring, spec.Screw, spec.Lock = "card", "primary", "ring", "screw", "lock"
	return spec
}

// leastParts is how many rows the telescope with its parts named needs.
const leastParts = 9

// partsWide is how wide it is drawn at most.
const partsWide = 120

// DrawNamed draws a telescope with its parts named in r.
func DrawNamed(p *frame.Page, r schematic.Rect, t optics.Telescope) {
	r.W = min(r.W, partsWide)
	p.Parts(r, named(t))
}

// WordsPage shows the telescope with its parts named, and the words that every
// instruction uses: one after the other where there is no room for both.
type WordsPage struct {
	page, pages int
}

// NewWordsPage is the page behind the help.
func NewWordsPage() frame.Screen { return &WordsPage{} }

func (s *WordsPage) Draw(p *frame.Page, _ string) {
	p.TextMax(p.Name.X, p.Name.Y, p.Cols-2, theme.Head, p.Pal.Heading("words"))
	tel, terms := scope.Builtin().Telescope(), words.Glossary()
	r := schematic.Rect{X: 1, Y: 2, W: p.Cols - 2, H: p.Sizes.Rule.Y - 2}
	s.pages = 1 + (len(terms)+r.H-1)/r.H
	if picture := r.H - len(terms) - 1; picture >= leastParts {
		s.page, s.pages = 0, 1
		DrawNamed(p, schematic.Rect{X: r.X, Y: r.Y, W: r.W, H: picture - 1}, tel)
		r.Y, r.H = r.Y+picture+1, r.H-picture-1
	} else if s.page == 0 {
		DrawNamed(p, schematic.Rect{X: r.X, Y: r.Y - 1, W: r.W, H: r.H - 1}, tel)
		return
	} else {
		terms = terms[(s.page-1)*r.H:]
	}
	wide := 17
	if p.Narrow() {
		wide = 15
	}
	f := p.Flow(r)
	for _, t := range terms[:min(len(terms), r.H)] {
		f.Item(theme.Act, frame.Pad(t.Word, wide), theme.Ink, t.Means)
	}
}

func (s *WordsPage) Foot(frame.Sizes) frame.Foot {
	f := frame.Foot{Prompt: "read?", Hint: "Enter closes it", Keys: frame.Footer("close", "close", "theme")}
	if s.page+1 < s.pages {
		f.Prompt, f.Hint, f.Keys[0].Label = "more?", "Enter shows the words", "the words"
	}
	return f
}

func (s *WordsPage) Take(a *frame.App, _ string) tea.Cmd {
	a.Used()
	if s.page+1 < s.pages {
		s.page++
		return nil
	}
	return a.Pop()
}

func (s *WordsPage) Esc(a *frame.App) { a.Pop() }
