package terminal

import (
	"strings"

	tea "github.com/charmbracelet/bubbletea"

	"spotward/session"
	"spotward/views/schematic"
	"spotward/views/theme"
)

// lessonBeside stands by the work that is a lesson's task.
type lessonBeside struct{ page *lessonPage }

func (b *lessonBeside) words() map[string]func(a *app) {
	return map[string]func(a *app){"task": func(a *app) {
		l := b.page.class.Lesson
		a.push(&sheet{title: "the task", parts: []part{{text: b.page.asked.Say}, {head: "what it is for"}, {text: l.Aim}, {head: "done when"}, {text: l.Done}}})
	}}
}

func (b *lessonBeside) holds() error { return nil }

// taken goes back to the lesson once the task is done.
func (b *lessonBeside) taken(a *app) bool {
	s := b.page
	bench := s.played.work.Bench
	done, reply, err := s.class.Played()
	if err != nil {
		a.fail(err)
		return false
	}
	if !done {
		return false
	}
	s.phase, s.reply, s.after = lessonAnswered, reply, bench.AfterPart()
	if s.asked.From == session.StageReady {
		s.after = bench.Afterwards() // a whole alignment
	}
	s.played.gone = true
	a.pop()
	return true
}

func (b *lessonBeside) foot(f foot, sz sizes) foot {
	if f.caution == "" {
		f.caution = cutClause(b.page.asked.Say, sz.Caution.W-2)
	}
	if len(f.keys) > 2 && !sz.narrow() {
		f.keys = append([]key{f.keys[0], {"task", "", "again"}}, f.keys[1:]...)
	}
	return f
}

// lessonPause stands over a lesson while nobody answers.
type lessonPause struct{ lesson *lessonPage }

func lessonPauseOptions() []string {
	return []string{"go on with the lesson", "leave it: nothing of it is kept"}
}

func (s *lessonPause) draw(p *page, _ string) {
	s.lesson.heading(p)
	f := p.flow(schematic.Rect{X: 3, Y: 3, W: min(70, p.Cols-6), H: p.sizes.Rule.Y - 3})
	f.heading("pause")
	f.skip(1)
	for i, o := range lessonPauseOptions() {
		f.option(i+1, o)
	}
	f.skip(1)
	f.say(theme.Label, s.lesson.class.Lesson.Aim)
}

func (s *lessonPause) foot(sizes) foot {
	return foot{prompt: "which?", hint: "Enter = 1, go on", keys: footer("go on", "go on", "help", "theme")}
}

func (s *lessonPause) esc(a *app) { a.pop() }

func (s *lessonPause) take(a *app, text string) tea.Cmd {
	switch strings.ToLower(strings.TrimSpace(text)) {
	case "", "1", "go on", "pause":
		return a.pop()
	case "2", "q", "quit", "leave":
		a.pop()
		return s.lesson.leave(a)
	}
	a.fail(errNumber(len(lessonPauseOptions())))
	return nil
}
