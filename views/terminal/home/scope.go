package home

import (
	"fmt"
	"strconv"
	"strings"

	tea "github.com/charmbracelet/bubbletea"

	"spotward/optics"
	"spotward/session"
	"spotward/session/history"
	"spotward/session/scope"
	"spotward/views/schematic"
	"spotward/views/terminal/align"
	"spotward/views/terminal/frame"
	"spotward/views/terminal/past"
	"spotward/views/theme"
)

// ScopePage is one scope and what can be done with it.
type ScopePage struct {
	scope scope.Scope
	hints []string // what its records point to
}

// newScopePage looks through the records of a scope.
func newScopePage(a *frame.App, scope scope.Scope) *ScopePage {
	s := &ScopePage{scope: scope}
	s.read(a)
	return s
}

// Returned looks at the scope again: it may be described otherwise now.
func (s *ScopePage) Returned(a *frame.App) {
	if a.Desk.Library == nil || s.builtin() {
		return
	}
	if now, err := a.Desk.Library.Scope(s.scope.Name); err == nil {
		s.scope = now
	}
	s.read(a)
}

func (s *ScopePage) read(a *frame.App) {
	s.hints = nil
	if a.Desk.Library == nil {
		return
	}
	all, _ := a.Desk.Library.Records()
	var own []session.Record
	for _, r := range all {
		if scope.SameName(r.Scope, s.scope.Name) {
			own = append(own, r)
		}
	}
	tel := s.scope.Telescope()
	work, _ := a.Desk.Library.Work()
	for _, h := range history.DriftOf(own, func(session.Record) optics.Telescope { return tel }, history.JobsOfScope(work, s.scope.Name)).Hints {
		s.hints = append(s.hints, h.Say+" "+h.Do)
	}
}

// deed is something that can be done with a scope.
type deed struct{ word, says string }

func (s *ScopePage) builtin() bool { return scope.SameName(s.scope.Name, scope.Builtin().Name) }

func (s *ScopePage) deeds() []deed {
	easy := []deed{
		{"practise", "practise: the usual things are wrong, nothing worse"},
		{"usual", "practise, as scopes come back to the shed"},
		{"hard", "practise, with faults to find"},
	}
	records := deed{"records", "its records"}
	if s.builtin() {
		return append(easy, records)
	}
	return append(append([]deed{
		{"align", "align it"},
		{"check", "check only: is it worth touching?"},
	}, easy...), records, deed{"edit", "edit its description: measure an estimate, mend what is wrong"})
}

func (s *ScopePage) Draw(p *frame.Page, _ string) {
	t := s.scope.Telescope()
	p.TextMax(1, 0, p.Cols-2, theme.Head, s.scope.Name)
	p.TextRight(p.Cols-1, 0, theme.Label, fmt.Sprintf("%.0f mm, f/%.1f, axis error of %.1f mm allowed", t.ApertureMM, t.FocalRatio(), t.AllowedMM(past.OptUse(s.scope))))
	f := p.Flow(schematic.Rect{X: 1, Y: 2, W: min(76, p.Cols-2), H: p.Sizes.Rule.Y - 2})
	if s.builtin() {
		f.Say(theme.Ink, "Dunlin is not real. It shows what you would see, and turns its screws when you say so.")
		f.Skip(1)
	}
	for i, d := range s.deeds() {
		f.Option(i+1, d.says)
	}
	if len(s.hints) > 0 {
		f.Skip(1)
		f.Say(theme.Label, "Its records say:")
		for _, h := range s.hints {
			f.Item(theme.Head, "-", theme.Ink, h)
		}
	}
	guessed := s.scope.Guessed()
	if len(guessed) == 0 {
		return
	}
	f.Skip(1)
	if !f.Fits(append(guessed, ""), 2) {
		f.Say(theme.Label, fmt.Sprintf("%d figures are not in its file: the usual ones are assumed until they are measured or learnt.", len(guessed)))
		return
	}
	f.Say(theme.Label, "Not in its file; the usual figure is assumed until it is measured or learnt:")
	for _, g := range guessed {
		f.Item(theme.Label, "-", theme.Label, g)
	}
}

func (s *ScopePage) Foot(frame.Sizes) frame.Foot {
	return frame.Foot{Prompt: "which?", Hint: "Enter = 1", Keys: frame.Footer("choose", "back", "help", "theme")}
}

func (s *ScopePage) Esc(a *frame.App) { a.Pop() }

func (s *ScopePage) Take(a *frame.App, text string) tea.Cmd {
	word := strings.ToLower(strings.TrimSpace(text))
	switch word {
	case "":
		word = "1"
	case "b", "back", "q", "quit":
		return a.Pop()
	}
	deeds := s.deeds()
	for i, d := range deeds {
		if word == strconv.Itoa(i+1) || word == d.word || word == "practice" && d.word == "practise" {
			a.Used()
			switch d.word {
			case "records":
				return past.ShowRecords(a, s.scope.Name)
			case "edit":
				return editScope(a, s.scope.Name)
			}
			a.Stack = a.Stack[:len(a.Stack)-1] // a session ends at the front page
			return begin(a, s.scope, d.word)
		}
	}
	a.Fail(align.ErrNumber(len(deeds)))
	return nil
}
