package terminal

import (
	"testing"

	"github.com/charmbracelet/bubbletea"
	"github.com/stretchr/testify/require"

	"spotward/session/lesson"
	"spotward/views/terminal/frame"
	"spotward/views/terminal/teach"
)

// Without a name an instructor picks one of those whose lessons are kept.
func TestResultsOfWhom(t *testing.T) {
	p, lib := atFront(t, 60, 18)
	p.enters("lessons")
	p.enters("")
	p.enters("results")
	require.Contains(t, plainView(p), "the card before the laser", "nobody yet: what is wanted")
	p.press(tea.KeyEsc)

	passed := lesson.NewResult(lesson.All()[0])
	passed.Passed = true
	for _, name := range []string{"Ida", "Ann"} {
		require.NoError(t, lib.AddLesson(name, passed))
	}
	p.enters("results")
	require.Contains(t, plainView(p), "1 Ann")
	require.Contains(t, plainView(p), "2 Ida")
	p.enters("3")
	require.True(t, p.Bad)
	p.press(tea.KeyCtrlU)
	p.enters("2")
	require.IsType(t, &frame.Sheet{}, p.Top().Screen)
	require.Equal(t, "results of Ida", p.Top().Screen.(*frame.Sheet).Title)
	p.press(tea.KeyEsc)
	p.enters("back")
	require.IsType(t, &teach.LadderPage{}, p.Top().Screen)
}
