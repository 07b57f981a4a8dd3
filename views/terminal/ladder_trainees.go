package terminal

import (
	"fmt"
	"strconv"
	"strings"

	tea "github.com/charmbracelet/bubbletea"

	"spotward/views/desk"
	"spotward/views/schematic"
	"spotward/views/theme"
)

// traineesPage lists those of whom lessons are kept, for whoever teaches them.
type traineesPage struct {
	desk  *desk.Desk
	names []string
	from  int // the first one shown
	shown int // how many, as last drawn
}

// showTrainees shows whose results there are; where there are none, what is to
// be signed off.
func showTrainees(a *app, d *desk.Desk) {
	var names []string
	if d.Library != nil {
		var err error
		if names, err = d.Library.Trainees(); err != nil {
			a.fail(err)
			return
		}
	}
	if len(names) == 0 {
		a.push(signOff("", nil))
		return
	}
	a.push(&traineesPage{desk: d, names: names})
}

func (s *traineesPage) draw(p *page, _ string) {
	p.TextMax(1, 0, p.Cols-2, theme.Head, p.pal.Heading("results"))
	p.TextRight(p.Cols-1, 0, theme.Label, fmt.Sprintf("trainees: %d", len(s.names)))
	f := p.flow(schematic.Rect{X: 3, Y: 2, W: min(70, p.Cols-6), H: p.sizes.Rule.Y - 2})
	f.say(theme.Head, "Whose results?")
	f.skip(1)
	s.shown = p.sizes.Rule.Y - f.r.Y - 1
	end := min(len(s.names), s.from+s.shown)
	for i, name := range s.names[s.from:end] {
		f.option(s.from+i+1, name)
	}
	if len(s.names) > s.shown {
		f.say(theme.Label, "more: type more")
	}
}

func (s *traineesPage) foot(sizes) foot {
	return foot{prompt: "whose?", hint: "Enter = " + s.names[0], keys: footer("take it", "back", "help", "theme", "large")}
}

func (s *traineesPage) esc(a *app) { a.pop() }

// meant is the name that typed text means: its number, or itself.
func (s *traineesPage) meant(typed string) (string, bool) {
	word := strings.TrimSpace(typed)
	if word == "" {
		return s.names[0], true
	}
	for i, name := range s.names {
		if strings.EqualFold(word, name) || word == strconv.Itoa(i+1) {
			return name, true
		}
	}
	return "", false
}

func (s *traineesPage) echo(typed string) (string, bool) { return s.meant(typed) }

func (s *traineesPage) take(a *app, text string) tea.Cmd {
	name, ok := s.meant(text)
	switch word := strings.ToLower(strings.TrimSpace(text)); {
	case ok:
	case word == "q" || word == "quit" || word == "b" || word == "back":
		return a.pop()
	case word == "more":
		a.used()
		if s.from += s.shown; s.from >= len(s.names) {
			s.from = 0
		}
		return nil
	default:
		a.fail(errNumber(len(s.names)))
		return nil
	}
	results, err := s.desk.Library.LessonsOf(name)
	if err != nil {
		a.fail(err)
		return nil
	}
	a.used()
	a.push(signOff(name, results))
	return nil
}
