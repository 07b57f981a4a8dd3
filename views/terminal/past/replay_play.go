package past

import (
	"errors"
	"fmt"
	"strconv"
	"strings"
	"time"

	tea "github.com/charmbracelet/bubbletea"

	"spotward/views/terminal/frame"
)

// How long a step may stand while it plays, seconds.
const (
	paceUsual = 2
	paceLeast = 0.2
	paceMost  = 60
)

// play goes on by itself, from the start where the end is shown.
func (s *Screen) play(a *frame.App, seconds string) tea.Cmd {
	pace := float64(paceUsual)
	if seconds != "" {
		v, err := strconv.ParseFloat(strings.TrimSuffix(seconds, "s"), 64)
		if err != nil || !(v >= paceLeast && v <= paceMost) {
			a.Fail(fmt.Errorf("%q is no pace: say the seconds a step stands, %g to %d, as in: play 2", seconds, paceLeast, paceMost))
			return nil
		}
		pace = v
	}
	if len(s.Steps) == 0 {
		a.Fail(errNoSteps)
		return nil
	}
	if s.Over() {
		s.show(0)
	}
	s.Pace = time.Duration(pace * float64(time.Second))
	s.Runs++
	return s.tick()
}

var errNoSteps = errors.New("there is nothing to play: the journal has no steps")

// TickMsg says that the next step is due. One of an earlier run says nothing.
type TickMsg struct {
	Of  *Screen
	Run int
}

func (s *Screen) tick() tea.Cmd {
	run := s.Runs
	return tea.Tick(s.Pace, func(time.Time) tea.Msg { return TickMsg{s, run} })
}

// Ticked goes on where it still plays. At the record it stops.
func (s *Screen) Ticked(a *frame.App, msg tea.Msg) tea.Cmd {
	m, ok := msg.(TickMsg)
	if !ok || m.Of != s || s.Pace == 0 || m.Run != s.Runs {
		return nil
	}
	s.step(1)
	a.Version++
	if s.Over() {
		s.Pace = 0
		return nil
	}
	return s.tick()
}
