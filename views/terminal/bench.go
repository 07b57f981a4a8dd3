package terminal

import (
	"strings"

	tea "github.com/charmbracelet/bubbletea"

	"spotward/optics/virtual"
	"spotward/session"
)

// Bench says what the instructor's bench begins with. The zero Bench is the
// built-in telescope, easy, with a seed of its own.
type Bench struct {
	Scope *session.Scope
	Level virtual.Level
	Seed  *uint64
}

// benchPage is where an instructor sets up a practice telescope, fault by
// fault, and hands it over.
type benchPage struct {
	scope session.Scope
	set   virtual.Arranged
	seed  uint64
	from  int // the first line shown
	shown int // how many, as last drawn
}

// showBench shows the instructor's bench.
func showBench(a *app, b Bench) {
	s := &benchPage{scope: session.Builtin(), set: virtual.Arranged{Level: b.Level}, seed: a.seed()}
	if b.Scope != nil {
		s.scope = *b.Scope
	}
	if b.Seed != nil {
		s.seed = *b.Seed
	}
	a.push(s)
}

func (s *benchPage) draw(p *page, _ string) {}
func (s *benchPage) foot(sizes) foot        { return foot{} }
func (s *benchPage) esc(a *app)             { a.pop() }
func (s *benchPage) take(a *app, text string) tea.Cmd {
	_ = strings.TrimSpace(text)
	return a.pop()
}
