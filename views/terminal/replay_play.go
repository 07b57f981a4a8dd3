package terminal

import (
	"errors"
	"fmt"
	"strconv"
	"strings"
	"time"

	tea "github.com/charmbracelet/bubbletea"
)

// How long a step may stand while it plays, seconds.
const (
	paceUsual = 2
	paceLeast = 0.2
	paceMost  = 60
)

// play goes on by itself, from the start where the end is shown.
func (s *past) play(a *app, seconds string) tea.Cmd {
	pace := float64(paceUsual)
	if seconds != "" {
		v, err := strconv.ParseFloat(strings.TrimSuffix(seconds, "s"), 64)
		if err != nil || !(v >= paceLeast && v <= paceMost) {
			a.fail(fmt.Errorf("%q is no pace: say the seconds a step stands, %g to %d, as in: play 2", seconds, paceLeast, paceMost))
			return nil
		}
		pace = v
	}
	if len(s.steps) == 0 {
		a.fail(errNoSteps)
		return nil
	}
	if s.over() {
		s.show(0)
	}
	s.pace = time.Duration(pace * float64(time.Second))
	s.runs++
	return s.tick()
}

var errNoSteps = errors.New("there is nothing to play: the journal has no steps")

// tickMsg says that the next step is due. One of an earlier run says nothing.
type tickMsg struct {
	of  *past
	run int
}

func (s *past) tick() tea.Cmd {
	run := s.runs
	return tea.Tick(s.pace, func(time.Time) tea.Msg { return tickMsg{s, run} })
}

// ticked goes on where it still plays. At the record it stops.
func (s *past) ticked(a *app, msg tea.Msg) tea.Cmd {
	m, ok := msg.(tickMsg)
	if !ok || m.of != s || s.pace == 0 || m.run != s.runs {
		return nil
	}
	s.step(1)
	a.version++
	if s.over() {
		s.pace = 0
		return nil
	}
	return s.tick()
}
