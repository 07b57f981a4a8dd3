package terminal

import (
	"testing"
	"time"

	tea "github.com/charmbracelet/bubbletea"
	"github.com/stretchr/testify/require"

	"spotward/session"
)

func TestWholeAlignmentByKeys(t *testing.T) {
	for seed := range uint64(6) {
		p := practising(t, seed, 80, 24, Options{}, env())
		p.plays(nil)
		end, ok := p.top().screen.(*endPage)
		require.True(t, ok)
		require.Contains(t, []string{session.OutcomeAligned, session.OutcomeLeft}, end.state.Outcome, "seed %d", seed)
		require.Contains(t, p.View(), "1.1 mm at f/6.0")
	}
}

func TestLettersNeverActByThemselves(t *testing.T) {
	p := practising(t, 3, 80, 24, Options{}, env())
	before := len(p.align().state().Events())
	p.types("qbuwvth stop safely quit undo")
	require.Len(t, p.align().state().Events(), before)
	require.Len(t, p.stack, 1)
}

func TestFunctionKeysEnterTheirWords(t *testing.T) {
	for _, c := range []struct {
		key  tea.KeyType
		want func(p *player) bool
	}{
		{tea.KeyF1, func(p *player) bool { return p.top().screen.(*sheet).title == "help" }},
		{tea.KeyF2, func(p *player) bool { return p.top().screen.(*sheet).title == "why" }},
		{tea.KeyF3, func(p *player) bool { return p.align().turn == 1 }},
		{tea.KeyF4, func(p *player) bool { return p.theme == "night" }},
		{tea.KeyF5, func(p *player) bool { return p.align().state().Told() == nil || p.align().state().Looks == 3 }},
		{tea.KeyF6, func(p *player) bool { return p.top().screen.(*sheet).title == "spot to the ring" }},
		{tea.KeyF7, func(p *player) bool { return p.align().state().Stage().ID != session.StageSecondary }},
		{tea.KeyF8, func(p *player) bool { return p.align().state().Stage().ID == session.StageVerdict }},
		{tea.KeyF9, func(p *player) bool { return p.large }},
		{tea.KeyF10, func(p *player) bool { return p.align().state().Stage().ID == session.StageStopping }},
		{tea.KeyEsc, func(p *player) bool { _, ok := p.top().screen.(*pausePage); return ok }},
	} {
		p := practising(t, 3, 80, 24, Options{}, env())
		p.plays(to(session.StageSecondary, "", true))
		p.types("4:3") // half a reading: no key may lose it
		p.press(c.key)
		require.True(t, c.want(p), "%v", c.key)
		require.Equal(t, "4:3", p.stack[0].line.String(), "%v", c.key)
	}
}

func TestWhatIsNotUnderstoodStays(t *testing.T) {
	p := practising(t, 3, 80, 24, Options{}, env())
	p.plays(to(session.StageFirstLook, "p", false))
	p.enters("half 4")
	require.True(t, p.bad)
	require.Equal(t, "half 4", p.top().line.String())
	require.Equal(t, 0, p.align().state().Looks)
	p.types("x") // the next key takes the error away, not the text
	require.Equal(t, "half 4x", p.top().line.String())
	require.Empty(t, p.note)
}

func TestEmptyEnterRecordsNoPlace(t *testing.T) {
	p := practising(t, 3, 80, 24, Options{}, env())
	p.plays(to(session.StageFirstLook, "p", false))
	p.press(tea.KeyEnter)
	require.True(t, p.bad)
	require.Equal(t, 0, p.align().state().Looks)
	p.plays(to(session.StageSecondary, "", true))
	looks := p.align().state().Looks
	p.press(tea.KeyEnter)
	require.False(t, p.bad)
	require.Nil(t, p.align().state().Told(), "turned as told")
	require.Equal(t, looks, p.align().state().Looks)
}

func TestPasteIsOneLineThatWaits(t *testing.T) {
	p := practising(t, 3, 80, 24, Options{}, env())
	p.Update(tea.KeyMsg{Type: tea.KeyRunes, Runes: []rune("1.5\nq\n"), Paste: true})
	require.Equal(t, "1.5", p.top().line.String())
	require.False(t, p.quitting)
	p.Update(tea.KeyMsg{Type: tea.KeyRunes, Runes: []rune("\x1b[31m" + string(make([]rune, 900))), Paste: true})
	require.LessOrEqual(t, len(p.top().line.text), maxTyped)
	require.NotContains(t, p.top().line.String(), "\x1b")
}

func TestPauseAndAfterSleep(t *testing.T) {
	p := practising(t, 3, 80, 24, Options{}, env())
	p.plays(to(session.StageSecondary, "", true))
	p.press(tea.KeyEsc)
	require.Contains(t, p.View(), "Last asked: ")
	p.press(tea.KeyEsc)
	require.NotNil(t, p.align())

	later := noon().Add(2 * asleep)
	p.now = func() time.Time { return later }
	p.types("x")
	require.IsType(t, &wakeUp{}, p.top().screen)
	require.Contains(t, p.View(), "not sure")
	p.enters("done")
	require.NotNil(t, p.align())
	require.Nil(t, p.align().state().Told())
}

func TestResumeTurnsTheMouseOnAgain(t *testing.T) {
	p := practising(t, 3, 80, 24, Options{}, env())
	_, cmd := p.Update(tea.ResumeMsg{})
	require.Equal(t, tea.EnableMouseCellMotion(), cmd())
	p = practising(t, 3, 80, 24, Options{NoMouse: true}, env())
	_, cmd = p.Update(tea.ResumeMsg{})
	require.Nil(t, cmd)
}
