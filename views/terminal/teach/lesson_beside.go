package teach

import (
	"strings"

	tea "github.com/charmbracelet/bubbletea"

	"spotward/session"
	"spotward/views/schematic"
	"spotward/views/terminal/align"
	"spotward/views/terminal/frame"
	"spotward/views/theme"
)

// lessonBeside stands by the work that is a lesson's task.
type lessonBeside struct{ page *LessonPage }

func (b *lessonBeside) Words() map[string]func(a *frame.App) {
	return map[string]func(a *frame.App){"task": func(a *frame.App) {
		l := b.page.Class.Lesson
		a.Push(&frame.Sheet{Title: "the task", Parts: []frame.Part{{Text: b.page.asked.Say}, {Head: "what it is for"}, {Text: l.Aim}, {Head: "done when"}, {Text: l.Done}}})
	}}
}

func (b *lessonBeside) Holds() error { return nil }

// Taken goes back to the lesson once the task is done.
func (b *lessonBeside) Taken(a *frame.App) bool {
	s := b.page
	bench := s.played.Work.Bench
	done, reply, err := s.Class.Played()
	if err != nil {
		a.Fail(err)
		return false
	}
	if !done {
		return false
	}
	s.Phase, s.Reply, s.after = LessonAnswered, reply, bench.AfterPart()
	if s.asked.From == session.StageReady {
		s.after = bench.Afterwards() // a whole alignment
	}
	s.played.Gone = true
	a.Pop()
	return true
}

func (b *lessonBeside) Foot(f frame.Foot, sz frame.Sizes) frame.Foot {
	if f.Caution == "" {
		f.Caution = align.CutClause(b.page.asked.Say, sz.Caution.W-2)
	}
	if len(f.Keys) > 2 && !sz.Narrow() {
		f.Keys = append([]frame.Key{f.Keys[0], {F: "task", Word: "", Label: "again"}}, f.Keys[1:]...)
	}
	return f
}

// lessonPause stands over a lesson while nobody answers.
type lessonPause struct{ lesson *LessonPage }

func lessonPauseOptions() []string {
	return []string{"go on with the lesson", "leave it: nothing of it is saved"}
}

func (s *lessonPause) Draw(p *frame.Page, _ string) {
	s.lesson.heading(p)
	f := p.Flow(schematic.Rect{X: 3, Y: 3, W: min(70, p.Cols-6), H: p.Sizes.Rule.Y - 3})
	f.Heading("pause")
	f.Skip(1)
	for i, o := range lessonPauseOptions() {
		f.Option(i+1, o)
	}
	f.Skip(1)
	f.Say(theme.Label, s.lesson.Class.Lesson.Aim)
}

func (s *lessonPause) Foot(frame.Sizes) frame.Foot {
	return frame.Foot{Prompt: "which?", Hint: "Enter = 1, go on", Keys: frame.Footer("go on", "go on", "help", "theme")}
}

func (s *lessonPause) Esc(a *frame.App) { a.Pop() }

func (s *lessonPause) Take(a *frame.App, text string) tea.Cmd {
	switch strings.ToLower(strings.TrimSpace(text)) {
	case "", "1", "go on", "pause":
		return a.Pop()
	case "2", "q", "quit", "leave":
		a.Pop()
		return s.lesson.leave(a)
	}
	a.Fail(align.ErrNumber(len(lessonPauseOptions())))
	return nil
}
