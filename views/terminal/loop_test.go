package terminal

import (
	"io"
	"os"
	"strings"
	"sync/atomic"
	"testing"

	"github.com/charmbracelet/bubbletea"
	"github.com/stretchr/testify/require"

	"spotward/views/desk"
	"spotward/views/terminal/frame"
	"spotward/views/terminal/home"
	"spotward/views/terminal/past"
)

// looped runs an app in the libraries' own event loop. says is called beside
// it, and sends what somebody does; the loop ends once says has returned, and
// not before: an order to quit comes late, as on a busy machine.
func looped(t *testing.T, a *frame.App, says func(send func(tea.Msg))) (tea.Model, error) {
	t.Helper()
	var done atomic.Bool
	late := tea.WithFilter(func(_ tea.Model, msg tea.Msg) tea.Msg {
		if _, quits := msg.(tea.QuitMsg); quits && !done.Load() {
			return nil
		}
		return msg
	})
	p := tea.NewProgram(a, tea.WithInput(strings.NewReader("")), tea.WithOutput(io.Discard), tea.WithoutSignalHandler(), late)
	go func() {
		p.Send(tea.WindowSizeMsg{Width: 80, Height: 24})
		says(p.Send)
		done.Store(true)
		p.Quit()
	}()
	return p.Run()
}

func pressed(k tea.KeyType) tea.Msg { return tea.KeyMsg{Type: k} }

func rune1(r rune) tea.Msg { return tea.KeyMsg{Type: tea.KeyRunes, Runes: []rune{r}} }

// What is still on its way when the last screen was closed is let be.
func TestWhatComesAfterTheLastScreen(t *testing.T) {
	click := tea.MouseMsg{X: 4, Y: 4, Action: tea.MouseActionPress, Button: tea.MouseButtonLeft}
	for name, msg := range map[string]tea.Msg{
		"a letter": rune1('x'), "enter": pressed(tea.KeyEnter), "escape": pressed(tea.KeyEsc), "a function key": pressed(tea.KeyF1),
		"an arrow": pressed(tea.KeyUp), "ctrl-c": pressed(tea.KeyCtrlC), "the mouse": click,
		"a window": tea.WindowSizeMsg{Width: 100, Height: 30}, "waking up": tea.ResumeMsg{}, "a tick": past.TickMsg{},
	} {
		t.Run(name, func(t *testing.T) {
			a, err := newApp(&desk.Desk{Now: noon}, Options{}, env())
			require.NoError(t, err)
			a.Crash.Dir = t.TempDir()
			end, err := looped(t, a, func(send func(tea.Msg)) {
				send(pressed(tea.KeyEsc))
				send(msg)
				send(msg)
			})
			require.NoError(t, err)
			require.Same(t, a, end)
			require.False(t, a.Bad, a.Note)
			require.Empty(t, filesIn(t, a.Crash.Dir), "no fault is noted")
		})
	}
}

// Nothing is taken once the program was interrupted: its journal is closed.
func TestWhatComesAfterAnInterrupt(t *testing.T) {
	p := practising(t, 5, 80, 24, Options{}, env())
	s := p.align()
	before := len(s.State().Events())
	_, err := looped(t, p.App, func(send func(tea.Msg)) {
		send(pressed(tea.KeyCtrlC))
		send(pressed(tea.KeyEnter))
		send(pressed(tea.KeyF10))
	})
	require.NoError(t, err)
	require.Len(t, s.State().Events(), before)
	require.Equal(t, frame.ExitInterrupted, p.Exit)
}

// closing goes wrong once it has closed itself.
type closing struct{ broken }

func (*closing) Esc(a *frame.App) {
	a.Pop()
	panic("closed badly")
}

// A fault of the program is said, and one goes on from there.
func TestAFaultInTheLoop(t *testing.T) {
	for name, c := range map[string]struct {
		screens []frame.Screen // over the front page
		keys    []tea.KeyType
	}{
		"taking a line":            {[]frame.Screen{&broken{taking: true}}, []tea.KeyType{tea.KeyEnter, tea.KeyEnter, tea.KeyEsc, tea.KeyEsc}},
		"drawing":                  {[]frame.Screen{&broken{drawing: true}}, []tea.KeyType{tea.KeyLeft, tea.KeyEsc, tea.KeyEsc}},
		"closing a screen":         {[]frame.Screen{&closing{}}, []tea.KeyType{tea.KeyEsc, tea.KeyEsc}},
		"closing the last of them": {nil, []tea.KeyType{tea.KeyEsc, tea.KeyEsc}},
	} {
		t.Run(name, func(t *testing.T) {
			a := &frame.App{Desk: &desk.Desk{Now: noon}, Now: noon, Window: func() float64 { return 2 }, Theme: "dark"}
			a.Crash.Dir = t.TempDir()
			a.Push(&closing{})
			if c.screens != nil {
				a.Stack = nil
				a.Push(home.NewFront(a))
			}
			for _, s := range c.screens {
				a.Push(s)
			}
			end, err := looped(t, a, func(send func(tea.Msg)) {
				for _, k := range c.keys {
					send(pressed(k))
				}
			})
			require.NoError(t, err)
			require.Same(t, a, end)
			require.True(t, a.Quitting)
			require.Empty(t, a.Stack)
			require.Equal(t, []string{"crash.log"}, filesIn(t, a.Crash.Dir))
		})
	}
}

func filesIn(t *testing.T, dir string) (names []string) {
	t.Helper()
	entries, err := os.ReadDir(dir)
	require.NoError(t, err)
	for _, e := range entries {
		names = append(names, e.Name())
	}
	return names
}
