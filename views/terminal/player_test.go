package terminal

import (
	"strings"
	"testing"
	"time"

	"github.com/charmbracelet/bubbletea"
	"github.com/stretchr/testify/require"

	"spotward/optics"
	"spotward/session"
	"spotward/session/event"
	"spotward/session/scope"
	"spotward/session/words"
	"spotward/views/desk"
	"spotward/views/terminal/align"
	"spotward/views/terminal/frame"
)

// player sits at the terminal UI: it types, and looks where the spots are.
type player struct {
	t testing.TB
	*frame.App
}

func noon() time.Time { return time.Date(2026, 3, 20, 12, 0, 0, 0, time.UTC) }

// env is a terminal with a UTF-8 locale and no colour.
func env(more ...string) func(string) string {
	vars := map[string]string{"LANG": "en_US.UTF-8"}
	for i := 0; i+1 < len(more); i += 2 {
		vars[more[i]] = more[i+1]
	}
	return func(name string) string { return vars[name] }
}

// practising returns a player at a practice telescope, without a shelf.
func practising(t testing.TB, seed uint64, cols, rows int, o Options, env func(string) string) *player {
	return practisingAt(t, "easy", seed, cols, rows, o, env)
}

func practisingAt(t testing.TB, level string, seed uint64, cols, rows int, o Options, env func(string) string) *player {
	d := &desk.Desk{Now: noon}
	w, err := d.Practice(scope.Builtin(), event.World{Seed: seed, Level: level})
	require.NoError(t, err)
	o.Start, o.Work = StartWork, w
	a, err := newApp(d, o, env)
	require.NoError(t, err)
	a.Crash.Dir = t.TempDir()
	p := &player{t, a}
	p.size(cols, rows)
	return p
}

func (p *player) size(cols, rows int) { p.Update(tea.WindowSizeMsg{Width: cols, Height: rows}) }

// types types text, a key at a time.
func (p *player) types(text string) {
	for _, r := range text {
		p.Update(tea.KeyMsg{Type: tea.KeyRunes, Runes: []rune{r}})
	}
}

func (p *player) press(k tea.KeyType) tea.Cmd {
	_, cmd := p.Update(tea.KeyMsg{Type: k})
	return cmd
}

// enters types a line and enters it.
func (p *player) enters(text string) {
	p.types(text)
	p.press(tea.KeyEnter)
}

// align returns the session's screen, or nil when another is shown.
func (p *player) align() *align.Screen {
	s, _ := p.Top().Screen.(*align.Screen)
	return s
}

// answer returns what somebody types who does as told and sees well.
func (p *player) answer() string {
	s := p.align()
	st := s.State()
	ask := st.Ask()
	if ask.Want != session.WantReading || ask.Told != nil {
		return "" // the first choice, done, turned as told
	}
	return seen(p.t, s, ask.Face)
}

// seen returns the reading of a face.
func seen(t testing.TB, s *align.Screen, f optics.Face) string {
	view, ok := s.Work.Look(f)
	require.True(t, ok)
	switch {
	case f == optics.FaceTarget && view.InHole:
		return "home"
	case !view.Visible:
		return "not there"
	}
	return words.ReadingText(s.State().Tel.ToDial(f, view.Seen))
}

// plays answers until the session is over, or done says that it is far enough.
func (p *player) plays(done func(ask session.Ask) bool) {
	for range 300 {
		s := p.align()
		if s == nil || done != nil && done(s.State().Ask()) {
			return
		}
		p.enters(p.answer())
		require.False(p.t, p.Bad, "%s: %s", s.State().Ask().Step, p.Note)
	}
	p.t.Fatal("no end is in sight")
}

// to returns a condition for plays: a stage, and whether a move is told.
func to(id session.StageID, step session.StepID, told bool) func(session.Ask) bool {
	return func(ask session.Ask) bool {
		return ask.Stage.ID == id && (step == "" || ask.Step == step) && (ask.Told != nil) == told
	}
}

// lines returns the lines of the view without the sequences for colour.
func lines(view string) []string { return strings.Split(view, "\n") }
