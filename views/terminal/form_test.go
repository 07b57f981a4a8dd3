package terminal

import (
	"testing"

	"github.com/stretchr/testify/require"

	"spotward/session"
	"spotward/views/desk"
)

func atFront(t *testing.T, cols, rows int) (*player, *session.Library) {
	lib, err := session.OpenLibrary(t.TempDir())
	require.NoError(t, err)
	a, err := newApp(&desk.Desk{Library: lib, Now: noon}, Options{}, env())
	require.NoError(t, err)
	a.seed = func() uint64 { return 3 }
	p := &player{t, a}
	p.size(cols, rows)
	return p, lib
}

func TestFormDescribesAScope(t *testing.T) {
	p, lib := atFront(t, 80, 24)
	p.enters("new")
	for _, typed := range []string{"Wagtail", `8"`, "1200", "10:30", "2", "230", "", "", "", "", "16", "75", "M5", "3"} {
		require.False(t, p.bad, p.note)
		requireFits(t, p.View(), 80, 24)
		p.enters(typed)
	}
	require.Contains(t, p.View(), "Estimated: ")
	p.enters("")
	require.False(t, p.bad, p.note)
	scope, err := lib.Scope("wagtail")
	require.NoError(t, err)
	require.InDelta(t, 203.2, scope.Aperture.MM(), 1e-9)
	require.Equal(t, session.Clock("10:30"), scope.FocuserAt)
	require.Equal(t, session.UsePlanets, scope.Use)
	require.InDelta(t, 115, scope.Tube.InnerRadius.MM(), 1e-9)
	require.InDelta(t, 8, scope.Primary.RingOuter.MM(), 1e-9)
	require.Equal(t, 3, *scope.Primary.Locks)
	require.Contains(t, p.View(), "Wagtail")
}

func TestFormRefusesWhatCannotBe(t *testing.T) {
	p, lib := atFront(t, 80, 24)
	p.enters("new")
	for _, c := range []struct{ wrong, right string }{
		{"", "Wagtail"}, {"wide", "200"}, {"20", "1200"}, {"13:00", "2"},
	} {
		p.enters(c.wrong)
		require.True(t, p.bad, "%q was taken", c.wrong)
		require.Equal(t, c.wrong, p.top().line.String(), "what was typed stays")
		p.top().line.set("")
		p.enters(c.right)
		require.False(t, p.bad, p.note)
	}
	p.enters("back") // and the answer is still there
	p.enters("")
	require.Equal(t, session.Clock("2:00"), p.top().screen.(*form).scope.FocuserAt)
	known, _ := lib.Scopes()
	require.Empty(t, known)

	p, _ = atFront(t, 80, 24)
	p.enters("new")
	p.enters("dunlin")
	require.True(t, p.bad, "a name that is taken")
}

func TestFormFitsEverywhere(t *testing.T) {
	for _, size := range [][2]int{{60, 18}, {80, 24}, {120, 36}, {200, 50}} {
		p, _ := atFront(t, size[0], size[1])
		p.enters("new")
		for _, typed := range []string{"Wagtail", "200", "1200"} {
			p.enters(typed)
		}
		for range len(questions()) - 3 {
			requireFits(t, p.View(), size[0], size[1])
			p.enters("")
		}
		requireFits(t, p.View(), size[0], size[1])
	}
}

func TestPracticeFromTheFrontPageToItsRecord(t *testing.T) {
	p, lib := atFront(t, 80, 24)
	p.enters("")         // Dunlin
	p.enters("practise") // in its easy way
	p.plays(nil)
	require.IsType(t, &endPage{}, p.top().screen)
	p.enters("")
	require.IsType(t, &front{}, p.top().screen)
	require.False(t, p.quitting)
	records, _ := lib.Records()
	require.Len(t, records, 1)
	for _, size := range [][2]int{{60, 18}, {80, 24}, {120, 36}} {
		p.size(size[0], size[1])
		p.enters("records")
		p.enters("1")
		requireFits(t, p.View(), size[0], size[1])
		require.Contains(t, p.View(), records[0].ID)
		p.enters("back")
		p.enters("back")
	}
}

func TestUnfinishedSessionsCanBeTakenUp(t *testing.T) {
	p, _ := atFront(t, 80, 24)
	p.enters("practise")
	p.plays(to(session.StageHome, "t", true))
	looks := p.align().state().Looks
	p.enters("quit")
	require.IsType(t, &front{}, p.top().screen)
	require.Contains(t, p.View(), "practice, begun")
	p.enters("2")
	require.NotNil(t, p.align())
	require.Contains(t, p.View(), "Was the scope moved")
	p.enters("1")
	require.Equal(t, looks, p.align().state().Looks)
	require.Equal(t, session.StageHome, p.align().state().Stage().ID)
}
