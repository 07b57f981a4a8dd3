package terminal

import (
	"os"
	"path/filepath"
	"testing"

	"github.com/charmbracelet/bubbletea"
	"github.com/stretchr/testify/require"

	"spotward/session"
	"spotward/views/terminal/align"
	"spotward/views/terminal/frame"
)

// broken is a screen with a fault of the program in it.
type broken struct{ drawing, taking bool }

func (b *broken) Draw(*frame.Page, string) {
	if b.drawing {
		panic("drawn badly")
	}
}

func (b *broken) Foot(frame.Sizes) frame.Foot { return frame.Foot{} }

func (b *broken) Esc(a *frame.App) { a.Pop() }

func (b *broken) Take(*frame.App, string) tea.Cmd {
	if b.taking {
		panic("taken badly")
	}
	return nil
}

func TestAFaultIsALineAndAFile(t *testing.T) {
	for _, b := range []*broken{{drawing: true}, {taking: true}} {
		p := practising(t, 5, 80, 24, Options{}, env())
		p.Push(b)
		view := p.View()
		p.enters("go on")
		if b.taking {
			view = p.View()
			require.Contains(t, view, "a fault of the program")
		} else {
			requireFits(t, view, 80, 24)
		}
		log, err := os.ReadFile(filepath.Join(p.Crash.Dir, "crash.log"))
		require.NoError(t, err)
		require.Contains(t, string(log), "badly")
		require.Contains(t, string(log), "trap_test.go")
		p.press(tea.KeyEsc) // and one can go on
		require.NotNil(t, p.align())
	}
}

func TestMousePointsAndNeverActs(t *testing.T) {
	p := practising(t, 5, 80, 24, Options{}, env())
	click := func(col, row int) {
		p.Update(tea.MouseMsg{X: col, Y: row, Action: tea.MouseActionPress, Button: tea.MouseButtonLeft})
	}
	p.View()
	z := p.Memo.Zones[1]
	click(z.X+1, z.Y)
	require.Equal(t, "2", p.Top().Line.String())
	require.Equal(t, session.StageReady, p.align().State().Stage().ID)
	p.Top().Line.Set("")

	p.plays(to(session.StageFirstLook, "p", false))
	s, _ := frame.SizesFor(80, 24, false, false)
	click(s.Face.Col+5, s.Face.Row) // what one would see is a picture of the mirror too
	_, ok := p.align().TypedPlace(p.Top().Line.String())
	require.True(t, ok)
	p.Top().Line.Set("")

	p.plays(to(session.StageSecondary, "p", true))
	click(s.Face.Col+5, s.Face.Row)
	at, ok := p.align().TypedPlace(p.Top().Line.String())
	require.True(t, ok)
	require.InDelta(t, 3, at.Hour(), 0.1)
	require.InDelta(t, 5*p.align().FaceSpec(s, "").RimMM/s.Face.R, at.Len(), 0.1)
	before := p.Top().Line.String()
	click(0, 23)
	require.Equal(t, before, p.Top().Line.String(), "off the drawing")

	p.Top().Line.Set("")
	p.enters("mouse")
	click(s.Face.Col+5, s.Face.Row)
	require.Empty(t, p.Top().Line.String())
}

// Arrow keys step by what a reading can tell, never to a place like 7:00 30.9.
func TestArrowsNudgeByWhatEyesTell(t *testing.T) {
	p := practising(t, 8, 80, 24, Options{}, env())
	for _, c := range []struct {
		at    func(session.Ask) bool
		typed string
		keys  []tea.KeyType
		want  string
	}{
		{to(session.StageFirstLook, "p", false), "7 1r", []tea.KeyType{tea.KeyUp}, "7:00 1.2r"},
		{to(session.StageFirstLook, "p", false), "7 2r", []tea.KeyType{tea.KeyUp, tea.KeyUp, tea.KeyRight}, "7:30 3r"},
		{to(session.StageFirstLook, "p", false), "7 2r", []tea.KeyType{tea.KeyDown}, "7:00 1.8r"},
		{to(session.StageFirstLook, "p", false), "12 .2r", []tea.KeyType{tea.KeyDown}, "dead"},
		{to(session.StageHome, "t", true), "3 4", []tea.KeyType{tea.KeyUp, tea.KeyLeft}, "2:30 4.5"},
		{to(session.StageHome, "t", true), "12:30 7", []tea.KeyType{tea.KeyLeft, tea.KeyLeft, tea.KeyUp}, "11:30 8"},
	} {
		p.Top().Line.Set("")
		p.plays(c.at)
		p.Top().Line.Set(c.typed)
		for _, k := range c.keys {
			p.press(k)
		}
		require.Equal(t, c.want, p.Top().Line.String(), c.typed)
	}
}

func TestArrowsEditWhatIsNoPlace(t *testing.T) {
	p := practising(t, 5, 80, 24, Options{}, env())
	p.types("halp")
	for range 3 {
		p.press(tea.KeyLeft)
	}
	p.press(tea.KeyDelete)
	p.types("e")
	require.Equal(t, "help", p.Top().Line.String())
	p.press(tea.KeyHome)
	p.press(tea.KeyBackspace)
	p.press(tea.KeyEnd)
	p.press(tea.KeyCtrlW)
	require.Empty(t, p.Top().Line.String())
}

func TestColoursFollowTheEnvironment(t *testing.T) {
	for _, c := range []struct {
		vars  []string
		plain bool
		ascii bool
	}{
		{[]string{"TERM", "xterm-256color"}, false, false},
		{[]string{"TERM", "xterm-256color", "NO_COLOR", "1"}, true, false},
		{[]string{"TERM", "xterm-256color", "NO_COLOR", ""}, false, false},
		{[]string{"TERM", "dumb"}, true, false},
		{[]string{"TERM", "vt220", "LANG", "C"}, false, true},
		{[]string{"TERM", "xterm", "LC_ALL", "POSIX"}, false, true},
	} {
		p := practising(t, 5, 80, 24, Options{}, env(c.vars...))
		view := p.View()
		require.Equal(t, c.plain, len(view) > 0 && !containsEscape(view), "%v", c.vars)
		require.Equal(t, c.ascii, isASCII(view), "%v", c.vars)
	}
}

func containsEscape(s string) bool {
	for i := range len(s) {
		if s[i] == 0x1b {
			return true
		}
	}
	return false
}

func isASCII(s string) bool {
	for i := range len(s) {
		if s[i] >= 0x80 {
			return false
		}
	}
	return true
}

func TestHostileNamesNeverReachTheTerminal(t *testing.T) {
	p := practising(t, 5, 80, 24, Options{}, env())
	p.types("a\x1b]0;x\x07b")
	require.NotContains(t, p.View(), "\x1b")
	p.Fail(errorText("\x1b[2J\r\n\x07"))
	require.NotContains(t, p.View(), "\x1b")
	require.NotContains(t, p.View(), "\r")
}

type errorText string

func (e errorText) Error() string { return string(e) }

func TestSafeStopIsOneKeyFromAnywhere(t *testing.T) {
	for _, at := range stages() {
		p := practising(t, 8, 80, 24, Options{}, env())
		p.plays(at)
		p.press(tea.KeyF10)
		require.Equal(t, session.StageStopping, p.align().State().Stage().ID)
		p.press(tea.KeyEnter)
		require.IsType(t, &align.EndPage{}, p.Top().Screen)
		require.Equal(t, frame.ExitUnfinished, p.Exit)
	}
}
