package teach

import (
	"fmt"

	"spotward/session/lesson"
	"spotward/views/schematic"
	"spotward/views/teach"
	"spotward/views/terminal/align"
	"spotward/views/terminal/frame"
	"spotward/views/theme"
)

func (s *LessonPage) Draw(p *frame.Page, typed string) {
	s.heading(p)
	switch s.Phase {
	case lessonIntro:
		s.drawIntro(p)
	case LessonAsked:
		s.drawTask(p, typed)
	case LessonAnswered:
		s.drawAnswer(p)
	default:
		s.drawOver(p)
	}
}

// heading writes which lesson and which of its tasks.
func (s *LessonPage) heading(p *frame.Page) {
	end := p.TextMax(1, 0, p.Cols-2, theme.Label, fmt.Sprintf("lesson %d ", s.N))
	p.TextMax(end, 0, p.Cols-1-end, theme.Head, p.Pal.Heading(s.Class.Lesson.Title))
	n := len(s.Class.Lesson.Tasks)
	words := "one task"
	switch {
	case s.Phase == LessonOver:
		words = "done"
	case n > 1 && s.Phase == lessonIntro:
		words = fmt.Sprintf("%d tasks", n)
	case n > 1:
		words = fmt.Sprintf("task %d of %d", s.at(), n)
	}
	p.TextRight(p.Cols-1, 0, theme.Label, words)
}

// at is which task is shown, from 1.
func (s *LessonPage) at() int {
	if s.Class.Over() {
		return len(s.Class.Lesson.Tasks)
	}
	_, n := s.Class.Task()
	if s.Phase == LessonAnswered {
		n-- // the class has gone on already
	}
	return n
}

// body is all between the heading and the rule.
func (s *LessonPage) body(p *frame.Page) *frame.Flow {
	return p.Flow(schematic.Rect{X: 3, Y: 2, W: wordsWide(p), H: p.Sizes.Rule.Y - 2})
}

// wordsWide is how wide words stand that are to be read: on the projector, where
// they are large, as wide as the page.
func wordsWide(p *frame.Page) int {
	if p.Projector {
		return p.Cols - 6
	}
	return min(76, p.Cols-6)
}

func (s *LessonPage) drawIntro(p *frame.Page) {
	f := s.body(p)
	f.Heading("what it is for")
	f.Say(theme.Ink, s.Class.Lesson.Aim)
	f.Skip(1)
	f.Heading("done when")
	f.Say(theme.Ink, s.Class.Lesson.Done)
	f.Skip(1)
	f.Say(theme.Label, "Take your time. Nothing here is real, and nothing can be broken.")
}

// drawTask draws what is to be seen, if anything is, and the question.
func (s *LessonPage) drawTask(p *frame.Page, typed string) {
	task, _ := s.Class.Task()
	if task.Picture != lesson.NoPicture {
		s.drawPicture(p, task)
		return
	}
	if s.Look == nil {
		f := s.body(p)
		f.Question(task.Say, f.LoudRows(task.Say, s.belowTask(f.R.W, task)))
		f.Skip(1)
		for i, o := range task.Options {
			f.Option(i+1, o.Words)
		}
		if s.Reply != "" {
			f.Skip(1)
			f.Say(theme.Head, s.Reply)
		}
		if task.Kind == lesson.TaskWork {
			f.Say(theme.Label, "Enter goes to the telescope. To read this again there, type: task")
		}
		return
	}
	spec := s.Look.bare(p.Sizes)
	spec.Standing = align.SightTitle(p, s.Look.tel.Station(s.Look.face))
	p.Face(p.Sizes.Face, spec)
	text := p.Column
	if task.Kind == lesson.TaskReading {
		p.Face(p.Yours, s.Look.own(p.Sizes, s.place(typed)))
		p.TextMax(text.X, text.Y, 6, theme.Label, "yours")
		used := align.UnderRing(p.Sizes) - text.Y
		text.Y, text.H = text.Y+used, text.H-used
	}
	f := p.Flow(text)
	if task.Kind == lesson.TaskReading {
		x := p.Yours.Col + int(p.Yours.R) + 5
		p.Typed(schematic.Rect{X: x, Y: p.Column.Y, W: p.Cols - 1 - x, H: int(p.Yours.R)}, typed)
	} else {
		p.Typed(f.ForTyped(), typed)
	}
	f.Question(task.Say, f.LoudRows(task.Say, s.belowTask(f.R.W, task)))
	if len(task.Options) > 0 {
		f.Skip(1)
	}
	for i, o := range task.Options {
		f.Option(i+1, o.Words)
	}
	if words := align.BesideSight(s.Look.View.Sight); words != "" && task.Kind != lesson.TaskQuestion {
		f.Skip(1)
		f.Say(theme.Ink, words)
	}
}

// belowTask is how many rows of a width a task's answers take, and what is said
// below them.
func (s *LessonPage) belowTask(width int, task lesson.Task) int {
	rows := len(schematic.Wrap(s.Reply, width)) + 4
	for _, o := range task.Options {
		rows += len(schematic.Wrap(o.Words, width-2))
	}
	return rows
}

// drawAnswer says what an answer was worth and shows it.
func (s *LessonPage) drawAnswer(p *frame.Page) {
	if s.asked.Picture != lesson.NoPicture {
		named := s.asked
		named.Picture = lesson.Named
		f := s.drawParts(p, named)
		f.Say(theme.Head, s.Reply)
		return
	}
	f := s.body(p)
	if s.Look != nil {
		p.Face(p.Sizes.Face, s.Look.answered(p.Sizes, s.typed))
		f = p.Flow(p.Column)
	}
	f.Say(theme.Label, s.asked.Say)
	f.Skip(1)
	const below = 8 // rows for why
	f.Loud(theme.Ink, s.Reply, f.R.H-below)
	for _, o := range s.asked.Options {
		if o.ID == s.asked.Right {
			f.Skip(1)
			f.Item(theme.Good, "yes", theme.Ink, o.Words)
		}
	}
	if len(s.after) > 0 {
		f.Skip(1)
	}
	for _, line := range s.after {
		f.Item(theme.Label, "-", theme.Ink, line)
	}
}

// drawOver sums the lesson up.
func (s *LessonPage) drawOver(p *frame.Page) {
	f := s.body(p)
	r := s.Class.Result()
	if r.Passed {
		f.Item(theme.Good, "yes", theme.Head, p.Pal.Heading("passed"))
	} else {
		f.Item(theme.Ink, "no ", theme.Head, p.Pal.Heading("not passed yet")+": take it again when you like, it gets easier each time")
	}
	f.Skip(1)
	f.Say(theme.Ink, teach.ResultWords(r))
	if r.Lesson == lesson.Exam {
		for _, line := range teach.ReadingWords(r) {
			f.Item(theme.Label, "-", theme.Ink, line)
		}
	}
	for _, praise := range teach.Praise(r) {
		f.Item(theme.Good, "+", theme.Ink, praise)
	}
	for _, deed := range r.Deeds {
		f.Item(theme.Head, "-", theme.Ink, align.Sentence("for next time: "+deed))
	}
	f.Skip(1)
	switch {
	case s.Desk.Library == nil:
		f.Say(theme.Label, "Nothing of it is saved: there is no data directory.")
	case s.Desk.Who == "":
		f.Say(theme.Label, "Nothing of it is saved: no name was given.")
	case s.unkept != nil:
		f.Say(theme.Label, "Nothing of it is saved: "+s.unkept.Error()+".")
	default:
		f.Say(theme.Label, "Saved for "+s.Desk.Who+".")
	}
	f.Skip(1)
	for i, o := range s.options() {
		f.Option(i+1, o.says)
	}
}

func (s *LessonPage) Foot(sz frame.Sizes) frame.Foot {
	switch s.Phase {
	case lessonIntro:
		return frame.Foot{Prompt: "ready?", Hint: "Enter begins", Keys: frame.Footer("begin", "back", "help", "theme", "large")}
	case LessonAnswered:
		return frame.Foot{Prompt: "read?", Hint: "Enter goes on", Keys: frame.Footer("go on", "pause", "help", "theme", "large")}
	case LessonOver:
		return frame.Foot{Prompt: "which?", Hint: "Enter = 1, " + s.options()[0].word, Keys: frame.Footer("choose", "back", "help", "theme", "large")}
	}
	task, _ := s.Class.Task()
	f := frame.Foot{Prompt: "which?", Hint: wanted(task), Keys: frame.Footer("accept", "pause", "help", "theme", "large")}
	switch task.Kind {
	case lesson.TaskShow:
		f.Prompt, f.Hint = "seen?", "Enter goes on"
	case lesson.TaskWork:
		f.Prompt, f.Hint, f.Keys[0].Label = "ready?", "Enter goes to the telescope", "to the telescope"
	case lesson.TaskReading:
		f.Prompt = "where is it?"
	case lesson.TaskWay:
		f.Prompt = "which way?"
	case lesson.TaskDeed:
		f.Prompt = "what first?"
	}
	if s.Look != nil {
		f.Caution = s.Reply
	}
	if sz.Narrow() {
		f.Hint = frame.CutWords(f.Hint, sz.Understood.W)
	}
	return f
}
