package teach

import (
	"fmt"
	"strconv"
	"strings"

	tea "github.com/charmbracelet/bubbletea"

	"spotward/views/desk"
	"spotward/views/schematic"
	"spotward/views/terminal/align"
	"spotward/views/terminal/frame"
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
func showTrainees(a *frame.App, d *desk.Desk) {
	var names []string
	if d.Library != nil {
		var err error
		if names, err = d.Library.Trainees(); err != nil {
			a.Fail(err)
			return
		}
	}
	if len(names) == 0 {
		a.Push(signOff("", nil, nil))
		return
	}
	a.Push(&traineesPage{desk: d, names: names})
}

func (s *traineesPage) Draw(p *frame.Page, _ string) {
	p.TextMax(1, 0, p.Cols-2, theme.Head, p.Pal.Heading("results"))
	p.TextRight(p.Cols-1, 0, theme.Label, fmt.Sprintf("trainees: %d", len(s.names)))
	f := p.Flow(schematic.Rect{X: 3, Y: 2, W: min(70, p.Cols-6), H: p.Sizes.Rule.Y - 2})
	f.Say(theme.Head, "Whose results?")
	f.Skip(1)
	s.shown = p.Sizes.Rule.Y - f.R.Y - 1
	end := min(len(s.names), s.from+s.shown)
	for i, name := range s.names[s.from:end] {
		f.Option(s.from+i+1, name)
	}
	if len(s.names) > s.shown {
		f.Say(theme.Label, "more: type more")
	}
}

func (s *traineesPage) Foot(frame.Sizes) frame.Foot {
	return frame.Foot{Prompt: "whose?", Hint: "Enter = " + s.names[0], Keys: frame.Footer("accept", "back", "help", "theme")}
}

func (s *traineesPage) Esc(a *frame.App) { a.Pop() }

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

func (s *traineesPage) Echo(typed string) (string, bool) { return s.meant(typed) }

func (s *traineesPage) Take(a *frame.App, text string) tea.Cmd {
	name, ok := s.meant(text)
	switch word := strings.ToLower(strings.TrimSpace(text)); {
	case ok:
	case word == "q" || word == "quit" || word == "b" || word == "back":
		return a.Pop()
	case word == "more":
		a.Used()
		if s.from += s.shown; s.from >= len(s.names) {
			s.from = 0
		}
		return nil
	default:
		a.Fail(align.ErrNumber(len(s.names)))
		return nil
	}
	results, err := s.desk.Library.LessonsOf(name)
	if err != nil {
		a.Fail(err)
		return nil
	}
	a.Used()
	own := *s.desk
	own.Who = name
	a.Push(signOff(name, results, signedLines(a, &own)))
	return nil
}
