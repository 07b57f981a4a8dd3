package terminal

import (
	"path/filepath"
	"strconv"
	"strings"
	"testing"
	"time"

	"github.com/charmbracelet/bubbletea"
	"github.com/stretchr/testify/require"

	"spotward/session"
	"spotward/session/event"
	"spotward/session/scope"
	"spotward/session/shelf"
	"spotward/views/desk"
	"spotward/views/terminal/align"
	"spotward/views/terminal/frame"
)

func TestWholeAlignmentByKeys(t *testing.T) {
	for seed := range uint64(6) {
		p := practising(t, seed, 80, 24, Options{}, env())
		p.plays(nil)
		end, ok := p.Top().Screen.(*align.EndPage)
		require.True(t, ok)
		require.Contains(t, []string{session.OutcomeAligned, session.OutcomeLeft}, end.State.Outcome, "seed %d", seed)
		require.Contains(t, p.View(), "1.1 mm at f/6.0")
	}
}

func TestLettersNeverActByThemselves(t *testing.T) {
	p := practising(t, 5, 80, 24, Options{}, env())
	before := len(p.align().State().Events())
	p.types("qbuwvth stop safely quit undo")
	require.Len(t, p.align().State().Events(), before)
	require.Len(t, p.Stack, 1)
}

func TestFunctionKeysEnterTheirWords(t *testing.T) {
	for _, c := range []struct {
		key  tea.KeyType
		want func(p *player) bool
	}{
		{tea.KeyF1, func(p *player) bool { return p.Top().Screen.(*frame.Sheet).Title == "help" }},
		{tea.KeyF2, func(p *player) bool { return p.Top().Screen.(*frame.Sheet).Title == "why" }},
		{tea.KeyF3, func(p *player) bool { return p.align().Turn == 1 }},
		{tea.KeyF4, func(p *player) bool { return p.Theme == "night" }},
		{tea.KeyF5, func(p *player) bool { return p.align().State().Told() == nil || p.align().State().Looks == 2 }},
		{tea.KeyF6, func(p *player) bool { return p.Top().Screen.(*frame.Sheet).Title == "spot to the ring" }},
		{tea.KeyF7, func(p *player) bool { return p.align().State().Stage().ID != session.StageSecondary }},
		{tea.KeyF8, func(p *player) bool { return p.align().State().Stage().ID == session.StageFirstLook }},
		{tea.KeyF9, func(p *player) bool { return p.Large }},
		{tea.KeyF10, func(p *player) bool { return p.align().State().Stage().ID == session.StageStopping }},
		{tea.KeyEsc, func(p *player) bool { s, ok := p.Top().Screen.(*align.Aside); return ok && s.Title == "pause" }},
	} {
		p := practising(t, 5, 80, 24, Options{}, env())
		p.plays(to(session.StageSecondary, "", true))
		p.types("4:3") // half a reading: no key may lose it
		p.press(c.key)
		require.True(t, c.want(p), "%v", c.key)
		require.Equal(t, "4:3", p.Stack[0].Line.String(), "%v", c.key)
	}
}

func TestWhatIsNotUnderstoodStays(t *testing.T) {
	p := practising(t, 5, 80, 24, Options{}, env())
	p.plays(to(session.StageFirstLook, "p", false))
	p.enters("half 4")
	require.True(t, p.Bad)
	require.Equal(t, "half 4", p.Top().Line.String())
	require.Equal(t, 0, p.align().State().Looks)
	require.Contains(t, p.View(), "half past 3 or half past 4", "what was not understood")
	require.Contains(t, p.View(), "! Card up before you lean in", "and still what to beware of")

	p.types("4:30 12") // typing begins anew, and what was typed over comes back
	require.Equal(t, "4:30 12", p.Top().Line.String())
	require.Empty(t, p.Note)
	p.press(tea.KeyCtrlY)
	require.Equal(t, "half 4", p.Top().Line.String())

	for _, k := range []tea.KeyType{tea.KeyBackspace, tea.KeyEnd, tea.KeyLeft} {
		p.Top().Line = frame.Line{}
		p.enters("half 4")
		p.press(k) // any other key edits it
		p.types("x")
		require.Contains(t, p.Top().Line.String(), "half ", "%v", k)
		require.Contains(t, p.Top().Line.String(), "x", "%v", k)
	}
}

func TestUndoSaysThatATurnStays(t *testing.T) {
	p := practising(t, 5, 80, 24, Options{}, env())
	p.plays(to(session.StageSecondary, "", true))
	p.enters("undo")
	require.NotContains(t, p.Note, "stays turned", "nothing was turned")
	p.enters("redo")
	p.plays(to(session.StageSecondary, "p", true))
	p.press(tea.KeyEnter) // turned as told
	p.enters("undo")
	require.Contains(t, p.Note, "stays turned")
}

func TestLeavingSaysHowToGoOn(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "in the shed")
	lib, err := shelf.Open(dir)
	require.NoError(t, err)
	d := &desk.Desk{Library: lib, Now: noon}
	for _, c := range []struct {
		verb  string
		begin func() (*desk.Work, error)
	}{
		{"practice", func() (*desk.Work, error) {
			return d.Practice(scope.Builtin(), event.World{Seed: 1, Level: "easy"})
		}},
		{"align", func() (*desk.Work, error) { return d.Align(scope.Builtin(), false) }},
	} {
		w, err := c.begin()
		require.NoError(t, err)
		a, err := newApp(d, Options{Start: StartWork, Work: w}, env())
		require.NoError(t, err)
		a.Interrupt()
		want := "spotward " + c.verb + " --resume " + w.State().ID + " --data " + strconv.Quote(dir)
		require.Contains(t, strings.Join(a.Farewell, "\n"), want)
	}
}

func TestEmptyEnterRecordsNoPlace(t *testing.T) {
	p := practising(t, 5, 80, 24, Options{}, env())
	p.plays(to(session.StageFirstLook, "p", false))
	p.press(tea.KeyEnter)
	require.True(t, p.Bad)
	require.Equal(t, 0, p.align().State().Looks)
	p.plays(to(session.StageSecondary, "", true))
	looks := p.align().State().Looks
	p.press(tea.KeyEnter)
	require.False(t, p.Bad)
	require.Nil(t, p.align().State().Told(), "turned as told")
	require.Equal(t, looks, p.align().State().Looks)
}

func TestPasteIsOneLineThatWaits(t *testing.T) {
	p := practising(t, 5, 80, 24, Options{}, env())
	p.Update(tea.KeyMsg{Type: tea.KeyRunes, Runes: []rune("1.5\nq\n"), Paste: true})
	require.Equal(t, "1.5", p.Top().Line.String())
	require.False(t, p.Quitting)
	p.Update(tea.KeyMsg{Type: tea.KeyRunes, Runes: []rune("\x1b[31m" + string(make([]rune, 900))), Paste: true})
	require.LessOrEqual(t, len(p.Top().Line.String()), frame.MaxTyped)
	require.NotContains(t, p.Top().Line.String(), "\x1b")
}

func TestPauseAndAfterSleep(t *testing.T) {
	p := practising(t, 5, 80, 24, Options{}, env())
	p.plays(to(session.StageSecondary, "", true))
	p.press(tea.KeyEsc)
	require.Contains(t, p.View(), "Last asked: ")
	p.press(tea.KeyEsc)
	require.NotNil(t, p.align())

	later := noon().Add(2 * frame.Asleep)
	p.Now = func() time.Time { return later }
	p.types("x")
	require.IsType(t, &align.Aside{}, p.Top().Screen)
	require.Contains(t, p.View(), "not sure")
	p.enters("done")
	require.NotNil(t, p.align())
	require.Nil(t, p.align().State().Told())
}

func TestResumeTurnsTheMouseOnAgain(t *testing.T) {
	p := practising(t, 5, 80, 24, Options{}, env())
	_, cmd := p.Update(tea.ResumeMsg{})
	require.Equal(t, tea.EnableMouseCellMotion(), cmd())
	p = practising(t, 5, 80, 24, Options{NoMouse: true}, env())
	_, cmd = p.Update(tea.ResumeMsg{})
	require.Nil(t, cmd)
}

func TestPagesAreReadOnAndBack(t *testing.T) {
	p := practising(t, 5, 60, 18, Options{}, env())
	p.enters("help")
	first := p.View()
	require.Contains(t, first, " 1 of ")
	p.press(tea.KeyDown)
	require.NotEqual(t, first, p.View())
	p.press(tea.KeyUp)
	require.Equal(t, first, p.View())
	pages := 1
	for ; p.align() == nil; pages++ {
		require.Less(t, pages, 20)
		p.press(tea.KeyEnter)
	}
	p.enters("help")
	p.View()
	p.press(tea.KeyEnd)
	last := p.View()
	require.Contains(t, last, "leave at once", "its last line")
	p.press(tea.KeyPgDown)
	require.Equal(t, last, p.View())
}

// What comes in one piece, and is called as a key is, is typed all the same.
func TestWordsThatKeysAreCalled(t *testing.T) {
	p := practising(t, 1, 80, 24, Options{}, env())
	for _, word := range []string{"home", "end", "left", "delete", "tab", "ctrl+u"} {
		p.Top().Line = frame.Line{}
		p.Update(tea.KeyMsg{Type: tea.KeyRunes, Runes: []rune(word)})
		require.Equal(t, word, p.Top().Line.String())
	}
}
