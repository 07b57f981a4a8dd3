package terminal

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/charmbracelet/bubbletea"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"spotward/optics"
	"spotward/session"
	"spotward/session/lesson"
	"spotward/session/sessiontest"
	"spotward/session/words"
	"spotward/views/terminal/frame"
	"spotward/views/terminal/home"
	"spotward/views/terminal/teach"
)

// rightly answers the task in hand that is no work.
func (p *player) rightly(s *teach.LessonPage) string {
	task, _ := s.Class.Task()
	switch task.Kind {
	case lesson.TaskQuestion:
		return task.Right
	case lesson.TaskWay:
		return words.ClockText(s.Class.Bench().Went())
	}
	return words.ReadingText(s.Look.Now())
}

func (p *player) lesson() *teach.LessonPage {
	s, _ := p.Top().Screen.(*teach.LessonPage)
	return s
}

// A trainee goes from the front page, by keys alone, to a result that is kept.
func TestALessonFromTheFrontPageToItsResult(t *testing.T) {
	p, lib := atFront(t, 80, 24)
	p.enters("lessons")
	require.Contains(t, plainView(p), "Whose lessons are they?")
	p.enters("quit")
	require.IsType(t, &home.Front{}, p.Top().Screen, "nobody is called so")
	p.enters("lessons")
	p.enters("B Ann")
	require.Contains(t, plainView(p), "B Ann")
	p.enters("name Ann")
	require.Contains(t, plainView(p), "Enter = 0, the words")
	p.enters("dial")
	require.Contains(t, plainView(p), "READING THE DIAL")
	p.enters("")
	for range 20 {
		s := p.lesson()
		if s.Phase == teach.LessonOver {
			break
		}
		if s.Phase == teach.LessonAnswered {
			p.enters("")
			continue
		}
		p.enters(p.rightly(s))
		require.False(t, p.Bad, p.Note)
		require.Contains(t, s.Reply, "Yes.")
	}
	require.Contains(t, plainView(p), "PASSED")
	require.Contains(t, plainView(p), "Saved for Ann.")
	require.Equal(t, frame.ExitDone, p.Exit)
	results, err := lib.LessonsOf("Ann")
	require.NoError(t, err)
	require.Len(t, results, 1)
	require.True(t, results[0].Passed)
	p.enters("ladder")
	require.Contains(t, plainView(p), "reading the dial passed")
	p.enters("results")
	require.Contains(t, plainView(p), "RESULTS OF ANN")
	require.Empty(t, p.Desk.Who, "the name is the ladder's, not that of what is done to real scopes")
}

func TestAWrongAnswerIsAskedAgain(t *testing.T) {
	p := lessonAt(t, "dial", 1)
	s := p.lesson()
	at := s.Look.Now()
	p.enters(words.ReadingText(optics.Dial{Right: -at.Right, Up: at.Up}))
	assert.Equal(t, teach.LessonAsked, s.Phase)
	assert.Contains(t, plainView(p), "Left and right have changed places.")
	p.enters("nonsense")
	assert.True(t, p.Bad)
	assert.Equal(t, "nonsense", p.Top().Line.String())
}

// The place may be pointed at and nudged.
func TestAReadingByMouse(t *testing.T) {
	p := lessonAt(t, "dial", 1)
	p.View()
	sz, _ := frame.SizesFor(80, 24, false, false)
	p.Update(tea.MouseMsg{X: sz.Ring.Col + 3, Y: sz.Ring.Row, Action: tea.MouseActionPress, Button: tea.MouseButtonLeft})
	typed := p.Top().Line.String()
	require.True(t, strings.HasPrefix(typed, "3:00 "), typed)
	p.press(tea.KeyUp)
	require.NotEqual(t, typed, p.Top().Line.String())
	p.enters("")
	require.False(t, p.Bad, p.Note)
	require.Equal(t, 1, p.lesson().Class.Result().Readings)
}

func TestALessonThatIsLeft(t *testing.T) {
	p, lib := atFront(t, 80, 24)
	p.enters("lessons")
	p.enters("Ann")
	p.enters("ring")
	p.enters("")
	p.enters("")
	require.NotNil(t, p.align(), "work is played on the session's own screen")
	p.enters("task")
	require.Contains(t, plainView(p), "Bring the spot to the ring")
	p.press(tea.KeyEsc)
	p.enters("quit")
	require.IsType(t, &teach.LadderPage{}, p.Top().Screen)
	require.Contains(t, p.Note, "Nothing of it is saved.")
	p.enters("dot")
	p.enters("")
	p.press(tea.KeyEsc)
	require.Contains(t, plainView(p), "nothing of it is saved")
	p.enters("leave")
	require.IsType(t, &teach.LadderPage{}, p.Top().Screen)
	results, err := lib.LessonsOf("Ann")
	require.NoError(t, err)
	require.Empty(t, results)
}

// Work of a lesson ends on the lesson's screen and is spoken about there.
func TestWorkInALesson(t *testing.T) {
	p := lessonAt(t, "ring", 1)
	s := p.lesson()
	p.enters("")
	for range 60 {
		if p.align() == nil {
			break
		}
		p.enters(p.answer())
		require.False(t, p.Bad, p.Note)
	}
	require.Same(t, s, p.lesson())
	require.Equal(t, teach.LessonAnswered, s.Phase)
	require.Contains(t, plainView(p), "That is it.")
	require.Contains(t, plainView(p), "readings were good")
}

// shows are the screens of lessons and bench, each from its first key on.
func teachingScreens(t *testing.T, cols, rows int, o Options, env func(string) string, show func(name string, p *player)) {
	p, _ := atFront(t, cols, rows)
	a, err := newApp(p.Desk, o, env)
	require.NoError(t, err)
	a.Seed = func() uint64 { return 3 }
	p = &player{t, a}
	p.size(cols, rows)
	do := func(name string, lines ...string) {
		for _, l := range lines {
			p.enters(l)
			require.False(t, p.Bad, p.Note)
		}
		show(name, p)
	}
	do("whose", "lessons")
	do("ladder", "Ann")
	p.types("7")
	show("ladder, another", p)
	p.Top().Line.Set("")
	do("lesson", "dial")
	do("reading", "")
	p.types("4:30 1r")
	show("reading, typed", p)
	p.Top().Line.Set("")
	do("answered", p.rightly(p.lesson()))
	p.press(tea.KeyEsc)
	show("pause", p)
	do("left", "leave")
	do("which dot", "dot", "")
	do("left again", "quit")
	do("results", "results")
	p.press(tea.KeyEsc)
	do("front", "back")
	do("bench", "bench")
	do("bench, set up", "1 20", "stuck primary B", "dead 30")
	do("light path", "light path")
	do("secondary up", "secondary 1 up")
	do("secondary right", "square", "secondary 1 right")
	do("primary", "square", "primary 3' up")
	do("handed over", "back", "hand over")
	p.plays(to(session.StageSecondary, "p", true))
	do("frozen", "freeze")
	do("truth", "truth")
	p.press(tea.KeyEsc)
	do("steps", "steps")
}

func TestGoldenTeaching(t *testing.T) {
	plain, night := env(), env("TERM", "xterm-256color")
	for _, c := range []struct {
		cols, rows int
		large      bool
	}{{80, 24, false}, {60, 18, false}, {120, 36, false}, {120, 36, true}, {200, 50, true}}[:sessiontest.Of(1, 1, 5)] {
		for theme, env := range map[string]func(string) string{"plain": plain, "night": night} {
			if theme == "night" && c.cols != 80 {
				continue // the same words in the same colours
			}
			o := Options{Projector: c.large}
			name := fmt.Sprintf("teaching-%dx%d-%s", c.cols, c.rows, theme)
			if c.large {
				name = fmt.Sprintf("teaching-%dx%d-projector-%s", c.cols, c.rows, theme)
			}
			if theme == "night" {
				o.Theme = theme
			}
			t.Run(name, func(t *testing.T) {
				var out strings.Builder
				teachingScreens(t, c.cols, c.rows, o, env, func(name string, p *player) {
					requireFits(t, p.View(), c.cols, c.rows)
					out.WriteString("-- " + name + "\n" + p.View() + "\n")
				})
				compare(t, name, out.String())
			})
		}
	}
}

func TestTeachingAtEverySize(t *testing.T) {
	sessiontest.Whole(t)
	n := sessiontest.Of(3, 4, 8)
	widths, heights := []int{60, 120, 0, 200, 80, 69, 110, 1}[:n], []int{18, 24, 0, 60, 36, 23, 50, 1}[:n]
	for _, o := range []Options{{}, {ASCII: true, Projector: true}, {Projector: true}}[:sessiontest.Of(1, 1, 3)] {
		teachingScreens(t, 80, 24, o, env("TERM", "xterm-256color"), func(_ string, p *player) {
			for _, cols := range widths {
				for _, rows := range heights {
					p.size(cols, rows)
					if view := p.View(); view != "" {
						requireFits(t, view, cols, rows)
					}
				}
			}
			p.size(80, 24)
		})
	}
}

// What could not be kept is not said to be.
func TestALessonThatCannotBeKept(t *testing.T) {
	p, lib := atFront(t, 80, 24)
	p.enters("lessons")
	p.enters("Ann")
	p.enters("middle")
	dir, err := lib.TraineeDir("Ann")
	require.NoError(t, err)
	require.NoError(t, os.MkdirAll(filepath.Dir(dir), 0o755))
	require.NoError(t, os.WriteFile(dir, nil, 0o600)) // where the folder is to be
	for p.lesson().Phase != teach.LessonOver {
		if s := p.lesson(); s.Phase == teach.LessonAsked {
			p.enters(p.rightly(s))
		}
		p.enters("")
	}
	require.True(t, p.Bad)
	require.Contains(t, plainView(p), "PASSED")
	require.NotContains(t, plainView(p), "Saved for Ann.")
	require.Contains(t, plainView(p), "Nothing of it is saved: ")
}

// In a small window the lists go on, and from their ends to their beginnings.
func TestListsOfTeachingGoRound(t *testing.T) {
	p, _ := atFront(t, 60, 18)
	for _, c := range []struct{ list, first, on string }{
		{"lessons", " 0 the words", "more"},
		{"bench", " 1 spot ", ""},
	} {
		p.enters(c.list)
		if c.list == "lessons" {
			p.enters("") // no name
		}
		first := p.View()
		require.Contains(t, first, c.first)
		p.enters(c.on)
		require.NotContains(t, p.View(), c.first, c.list)
		for n := 0; p.View() != first; n++ {
			require.Less(t, n, 10, c.list)
			p.enters(c.on)
		}
		p.press(tea.KeyEsc)
	}
}
