package terminal

import (
	"fmt"
	"os"
	"path/filepath"
	"regexp"
	"testing"

	"github.com/charmbracelet/bubbletea"
	"github.com/stretchr/testify/require"

	"spotward/session"
	"spotward/session/scope"
	"spotward/session/sessiontest"
	"spotward/session/shelf"
	"spotward/views/desk"
	"spotward/views/terminal/align"
	"spotward/views/terminal/frame"
	"spotward/views/terminal/home"
)

func atFront(t *testing.T, cols, rows int) (*player, *shelf.Shelf) {
	lib, err := shelf.Open(t.TempDir())
	require.NoError(t, err)
	a, err := newApp(&desk.Desk{Library: lib, Now: noon}, Options{}, env())
	require.NoError(t, err)
	a.Seed = func() uint64 { return 3 }
	p := &player{t, a}
	p.size(cols, rows)
	return p, lib
}

// answers enters an answer to each question by its name, and nothing to the
// others, until all is looked over.
func (p *player) answers(t *testing.T, cols, rows int, answers map[string]string) {
	t.Helper()
	for {
		requireFits(t, p.View(), cols, rows)
		f := p.Top().Screen.(*home.Form)
		q, _, _, asked := f.Asked()
		if !asked {
			return
		}
		if f.Estimate(q) != "" && f.Said(q) == "" {
			require.Regexp(t, `an\s+estimate\.`, besideDrawing(p.View()), "%s: all of it is said", q.Name)
		}
		p.enters(answers[q.Name])
		require.False(t, p.Bad, p.Note)
		require.Empty(t, p.Top().Line.String())
	}
}

// besideDrawing is the words of a screen, without what is drawn left of them.
func besideDrawing(view string) string {
	return regexp.MustCompile(`(?m)^.*  `).ReplaceAllString(view, " ")
}

func TestFormDescribesAScope(t *testing.T) {
	p, lib := atFront(t, 80, 24)
	p.enters("new")
	p.answers(t, 80, 24, map[string]string{
		"name": "Wagtail", "aperture": `8"`, "focal length": "1200", "focuser": "10:30", "use": "2", "tube": "230",
		"centre ring": "16", "primary's screws": "75", "thread, primary": "M5", "locks": "3",
	})
	require.Contains(t, p.View(), "~")
	p.enters("")
	require.False(t, p.Bad, p.Note)
	sc, err := lib.Scope("wagtail")
	require.NoError(t, err)
	require.Equal(t, scope.Inch(8), sc.Aperture)
	require.Equal(t, scope.Clock("10:30"), sc.FocuserAt)
	require.Equal(t, scope.UsePlanets, sc.Use)
	require.InDelta(t, 115, sc.Tube.InnerRadius.MM(), 1e-9)
	require.InDelta(t, 8, sc.Primary.RingOuter.MM(), 1e-9)
	require.Equal(t, 3, *sc.Primary.Locks)
	require.Contains(t, p.View(), "Wagtail")
}

func TestFormRefusesWhatCannotBe(t *testing.T) {
	p, lib := atFront(t, 80, 24)
	p.enters("new")
	for _, c := range []struct{ wrong, right string }{
		{"", "Wagtail"}, {"wide", "200"}, {"20", "1200"}, {"13:00", "2"},
	} {
		p.enters(c.wrong)
		require.True(t, p.Bad, "%q was taken", c.wrong)
		require.Equal(t, c.wrong, p.Top().Line.String(), "what was typed stays")
		p.Top().Line.Set("")
		p.enters(c.right)
		require.False(t, p.Bad, p.Note)
	}
	p.enters("back") // and the answer is still there
	p.enters("")
	require.Equal(t, scope.Clock("2:00"), p.Top().Screen.(*home.Form).Scope().FocuserAt)
	known, _ := lib.Scopes()
	require.Empty(t, known)

	p, _ = atFront(t, 80, 24)
	p.enters("new")
	p.enters("dunlin")
	require.True(t, p.Bad, "a name that is taken")
}

// What is in the line, entered or not, is there again: after Esc, a key, a
// smaller window, and after leaving the form.
func TestFormKeepsTheLine(t *testing.T) {
	p, _ := atFront(t, 80, 24)
	p.enters("new")
	for _, typed := range []string{"Wagtail", "200", "1200"} {
		p.enters(typed)
	}
	p.types("10:3")
	p.size(60, 18)
	p.size(20, 5)
	p.size(80, 24)
	require.Equal(t, "10:3", p.Top().Line.String())
	p.press(tea.KeyEsc)
	require.Contains(t, p.View(), "So far: 1200 mm")
	p.enters("")
	require.Equal(t, "10:3", p.Top().Line.String())
	p.press(tea.KeyF7)
	p.types("13")
	for range 3 {
		p.press(tea.KeyEsc)
	}
	require.IsType(t, &home.Front{}, p.Top().Screen)
	p.enters("new")
	require.Contains(t, p.Note, "goes on")
	p.Top().Line.Set("")
	for range 2 {
		p.enters("")
	}
	require.Equal(t, "13", p.Top().Line.String())
	p.Top().Line.Set("")
	p.enters("")
	require.Equal(t, "10:3", p.Top().Line.String())
	p.Top().Line.Set("")
	p.enters("afresh")
	require.Empty(t, p.Top().Screen.(*home.Form).Title())
}

func TestFormFitsEverywhere(t *testing.T) {
	sessiontest.Whole(t)
	for _, size := range [][2]int{{60, 18}, {120, 36}, {80, 24}, {200, 50}}[:sessiontest.Of(1, 2, 4)] {
		p, _ := atFront(t, size[0], size[1])
		p.enters("new")
		p.answers(t, size[0], size[1], map[string]string{"name": "Wagtail", "aperture": "8", "focal length": "f/6", "focuser": "2",
			"first letter, primary": "2", "first letter, secondary": "12"})
		shown := p.View()
		for range 4 {
			p.enters("more")
			requireFits(t, p.View(), size[0], size[1])
			shown += p.View()
		}
		for _, q := range p.Top().Screen.(*home.Form).Due() {
			require.Contains(t, shown, q.Name, "%v", size)
		}
	}
}

func TestEditFromTheScopesPage(t *testing.T) {
	p, lib := atFront(t, 80, 24)
	require.NoError(t, lib.SaveScope(scope.Scope{Format: 1, Name: "Wren", Aperture: scope.MM(200), FocalLength: scope.MM(1200)}))
	p.enters("new")
	p.press(tea.KeyEsc) // and the front page has looked again
	p.enters("wren")
	before := len(scope.Scope{Name: "Wren", Aperture: scope.MM(200)}.Guessed())
	require.Contains(t, p.View(), fmt.Sprintf("%d figures are not", before))
	p.enters("edit")
	p.enters("mirrors apart")
	require.Contains(t, p.View(), "this")
	p.enters("985")
	p.enters("")
	require.Contains(t, p.Note, "Wren is saved")
	require.IsType(t, &home.ScopePage{}, p.Top().Screen)
	require.Contains(t, p.View(), fmt.Sprintf("%d figures are not", before-1))
	sc, err := lib.Scope("wren")
	require.NoError(t, err)
	require.Equal(t, scope.MM(985), sc.Secondary.FromPrimary)
}

func TestPracticeFromTheFrontPageToItsRecord(t *testing.T) {
	p, lib := atFront(t, 80, 24)
	p.enters("")         // Dunlin
	p.enters("practise") // in its easy way
	p.plays(nil)
	require.IsType(t, &align.EndPage{}, p.Top().Screen)
	p.enters("")
	require.IsType(t, &home.Front{}, p.Top().Screen)
	require.False(t, p.Quitting)
	records, _ := lib.Records()
	require.Len(t, records, 1)
	for _, size := range [][2]int{{60, 18}, {80, 24}, {120, 36}} {
		p.size(size[0], size[1])
		p.enters("records")
		p.enters("1")
		requireFits(t, p.View(), size[0], size[1])
		require.Contains(t, p.View(), records[0].Outcome)
		for p.Top().Screen != frame.Screen(p.Stack[0].Screen) {
			p.press(tea.KeyEsc)
		}
	}
}

func TestUnfinishedSessionsCanBeTakenUp(t *testing.T) {
	p, _ := atFront(t, 80, 24)
	p.enters("practise")
	p.plays(to(session.StageRetighten, "nip", true))
	looks := p.align().State().Looks
	p.enters("quit")
	require.IsType(t, &home.Front{}, p.Top().Screen)
	require.Contains(t, p.View(), "practice, begun")
	p.enters("2")
	require.NotNil(t, p.align())
	require.Contains(t, p.View(), "Was the scope")
	p.enters("1")
	require.Equal(t, looks, p.align().State().Looks)
	require.Equal(t, session.StageRetighten, p.align().State().Stage().ID)
}

// A form whose answers cannot be kept says so once; whoever leaves again is let
// go.
func TestFormIsLeftWhenNothingCanBeKept(t *testing.T) {
	p, lib := atFront(t, 80, 24)
	p.enters("new")
	require.NoError(t, os.RemoveAll(filepath.Join(lib.Dir(), "drafts")))
	require.NoError(t, os.WriteFile(filepath.Join(lib.Dir(), "drafts"), nil, 0o600)) // where the folder is to be
	p.enters("Wagtail")
	require.True(t, p.Bad)
	for range 2 { // back to the first question, and out of it
		p.press(tea.KeyEsc)
		require.IsType(t, &home.Form{}, p.Top().Screen)
	}
	require.Contains(t, p.Note, "once more leaves it all the same")
	p.press(tea.KeyEsc)
	require.IsType(t, &home.Front{}, p.Top().Screen)
}

// Where a form is all there is, leaving it by any way ends the program.
func TestFormThatIsAllThereIsIsLeft(t *testing.T) {
	for name, leave := range map[string]func(p *player) tea.Cmd{
		"quit":   func(p *player) tea.Cmd { p.types("quit"); return p.press(tea.KeyEnter) },
		"back":   func(p *player) tea.Cmd { p.types("back"); return p.press(tea.KeyEnter) },
		"F7":     func(p *player) tea.Cmd { return p.press(tea.KeyF7) },
		"escape": func(p *player) tea.Cmd { return p.press(tea.KeyEsc) },
	} {
		lib, err := shelf.Open(t.TempDir())
		require.NoError(t, err)
		f, err := lib.DescribeScope("")
		require.NoError(t, err)
		a, err := newApp(&desk.Desk{Library: lib, Now: noon}, Options{Start: StartForm, Form: f}, env())
		require.NoError(t, err)
		p := &player{t, a}
		p.size(80, 24)
		cmd := leave(p)
		require.NotNil(t, cmd, name)
		require.Equal(t, tea.QuitMsg{}, cmd(), name)
		require.Equal(t, frame.ExitUnfinished, p.Exit, name)
	}
}
