package terminal

import (
	"strings"
	"testing"

	"github.com/charmbracelet/bubbletea"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"spotward/session"
	"spotward/session/lesson"
	"spotward/views/desk"
	room "spotward/views/teach"
	"spotward/views/terminal/teach"
)

// plainView is what is drawn, its words not broken over lines.
func plainView(p *player) string { return strings.Join(strings.Fields(p.View()), " ") }

func TestAdviceIsHiddenAndShown(t *testing.T) {
	p := practising(t, 7, 80, 24, Options{}, env())
	p.plays(to(session.StageSecondary, "p", true))
	assert.Contains(t, plainView(p), "F5 = it stands at the stop")
	p.enters("hide")
	require.NotNil(t, p.align().Work.State().Told())
	assert.NotContains(t, plainView(p), "F5 = it stands at the stop")
	p.enters("A -1/16")
	require.False(t, p.Bad, p.Note)
	assert.Equal(t, 1, p.align().State().Moves)
	p.enters(p.answer())
	require.False(t, p.Bad, p.Note)
	assert.NotContains(t, plainView(p), "F5 = it stands at the stop")
	p.enters("show")
	assert.Contains(t, plainView(p), "F5 = it stands at the stop")
}

// lessonAt returns a player at a task, from 1, of the lesson of that id.
func lessonAt(t *testing.T, id string, task int) *player {
	d := &desk.Desk{Now: noon}
	l, err := lesson.ByName(id)
	require.NoError(t, err)
	l.Tasks = l.Tasks[task-1:]
	class, err := room.Begin(d, l)
	require.NoError(t, err)
	a, err := newApp(d, Options{Start: StartLessons}, env())
	require.NoError(t, err)
	p := &player{t, a}
	p.size(80, 24)
	p.Push(&teach.LessonPage{Class: class, Desk: d, N: 1})
	p.press(tea.KeyEnter)
	return p
}

func TestADeedInALesson(t *testing.T) {
	p := lessonAt(t, "safe", 6)
	assert.NotContains(t, plainView(p), "card", "nobody says it first")
	p.enters("look")
	assert.Contains(t, plainView(p), "say what you do")
	p.press(tea.KeyCtrlU)
	p.enters("card on")
	assert.Contains(t, plainView(p), "Done: the card is over the open end.")
	p.enters("laser on")
	page, ok := p.Top().Screen.(*teach.LessonPage)
	require.True(t, ok)
	assert.Equal(t, teach.LessonAnswered, page.Phase)
	assert.Contains(t, page.Reply, "That is it.")
}

func TestTestsInALesson(t *testing.T) {
	p := lessonAt(t, "lies", 2)
	p.enters("2")
	assert.Contains(t, plainView(p), "that would be a guess")
	p.press(tea.KeyCtrlU)
	require.False(t, p.lesson().Look.View.Visible)
	p.enters("card on")
	p.enters("laser on")
	require.True(t, p.lesson().Look.View.Visible, "what was done is to be seen")
	p.enters("turn laser")
	assert.Contains(t, plainView(p), "runs round in a circle")
	p.enters("help")
	assert.Contains(t, plainView(p), "re-seat")
	p.press(tea.KeyEsc)
	for _, deed := range []string{"laser off", "re-seat", "laser on", "2"} {
		p.enters(deed)
	}
	assert.Contains(t, plainView(p), "Yes.")
}
