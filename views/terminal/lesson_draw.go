package terminal

import (
	"fmt"

	"spotward/session/lesson"
	"spotward/views/desk"
	"spotward/views/schematic"
	"spotward/views/theme"
)

func (s *lessonPage) draw(p *page, typed string) {
	s.heading(p)
	switch s.phase {
	case lessonIntro:
		s.drawIntro(p)
	case lessonAsked:
		s.drawTask(p, typed)
	case lessonAnswered:
		s.drawAnswer(p)
	default:
		s.drawOver(p)
	}
}

// heading writes which lesson and which of its tasks.
func (s *lessonPage) heading(p *page) {
	end := p.TextMax(1, 0, p.Cols-2, theme.Label, fmt.Sprintf("lesson %d ", s.n))
	p.TextMax(end, 0, p.Cols-1-end, theme.Head, p.pal.Heading(s.class.Lesson.Title))
	n := len(s.class.Lesson.Tasks)
	words := "one task"
	switch {
	case s.phase == lessonOver:
		words = "done"
	case n > 1 && s.phase == lessonIntro:
		words = fmt.Sprintf("%d tasks", n)
	case n > 1:
		words = fmt.Sprintf("task %d of %d", s.at(), n)
	}
	p.TextRight(p.Cols-1, 0, theme.Label, words)
}

// at is which task is shown, from 1.
func (s *lessonPage) at() int {
	if s.class.Over() {
		return len(s.class.Lesson.Tasks)
	}
	_, n := s.class.Task()
	if s.phase == lessonAnswered {
		n-- // the class has gone on already
	}
	return n
}

// body is all between the heading and the rule.
func (s *lessonPage) body(p *page) *flow {
	return p.flow(schematic.Rect{X: 3, Y: 2, W: min(76, p.Cols-6), H: p.sizes.Rule.Y - 2})
}

func (s *lessonPage) drawIntro(p *page) {
	f := s.body(p)
	f.heading("what it is for")
	f.say(theme.Ink, s.class.Lesson.Aim)
	f.skip(1)
	f.heading("done when")
	f.say(theme.Ink, s.class.Lesson.Done)
	f.skip(1)
	f.say(theme.Label, "Take your time. Nothing here is real, and nothing can be broken.")
}

// drawTask draws what is to be seen, if anything is, and the question.
func (s *lessonPage) drawTask(p *page, typed string) {
	task, _ := s.class.Task()
	if s.look == nil {
		f := s.body(p)
		f.say(theme.Head, task.Say)
		f.skip(1)
		for i, o := range task.Options {
			f.option(i+1, o.Words)
		}
		if s.reply != "" {
			f.skip(1)
			f.say(theme.Head, s.reply)
		}
		if task.Kind == lesson.TaskWork {
			f.say(theme.Label, "Enter goes to the telescope. There, task says this again.")
		}
		return
	}
	spec := s.look.bare(p.sizes)
	spec.Standing = sightTitle(p, s.look.tel.Station(s.look.face))
	p.Face(p.sizes.Face, spec)
	text := p.column
	if task.Kind == lesson.TaskReading {
		p.Face(p.Ring, s.look.own(p.sizes, s.place(typed)))
		p.TextMax(text.X, text.Y, 6, theme.Label, "yours")
		used := underRing(p.sizes) - text.Y
		text.Y, text.H = text.Y+used, text.H-used
	}
	f := p.flow(text)
	f.say(theme.Head, task.Say)
	if len(task.Options) > 0 {
		f.skip(1)
	}
	for i, o := range task.Options {
		f.option(i+1, o.Words)
	}
	if words := besideSight(s.look.view.Sight); words != "" && task.Kind != lesson.TaskQuestion {
		f.skip(1)
		f.say(theme.Ink, words)
	}
}

// drawAnswer says what an answer was worth and shows it.
func (s *lessonPage) drawAnswer(p *page) {
	f := s.body(p)
	if s.look != nil {
		p.Face(p.sizes.Face, s.look.answered(p.sizes, s.typed))
		f = p.flow(p.column)
	}
	f.say(theme.Label, s.asked.Say)
	f.skip(1)
	f.say(theme.Head, s.reply)
	for _, o := range s.asked.Options {
		if o.ID == s.asked.Right {
			f.skip(1)
			f.item(theme.Good, "yes", theme.Ink, o.Words)
		}
	}
	if len(s.after) > 0 {
		f.skip(1)
	}
	for _, line := range s.after {
		f.item(theme.Label, "-", theme.Ink, line)
	}
}

// drawOver sums the lesson up.
func (s *lessonPage) drawOver(p *page) {
	f := s.body(p)
	r := s.class.Result()
	if r.Passed {
		f.item(theme.Good, "yes", theme.Head, p.pal.Heading("passed"))
	} else {
		f.item(theme.Ink, "no ", theme.Head, p.pal.Heading("not passed yet")+": take it again when you like, it gets easier each time")
	}
	f.skip(1)
	f.say(theme.Ink, desk.ResultWords(r))
	for _, praise := range desk.Praise(r) {
		f.item(theme.Good, "+", theme.Ink, praise)
	}
	for _, deed := range r.Deeds {
		f.item(theme.Head, "-", theme.Ink, sentence("for next time: "+deed))
	}
	f.skip(1)
	switch {
	case s.desk.Library == nil:
		f.say(theme.Label, "Nothing is kept of it: there is no data directory.")
	case s.desk.Who == "":
		f.say(theme.Label, "Nothing is kept of it: no name was given.")
	case s.unkept != nil:
		f.say(theme.Label, "Nothing is kept of it: "+s.unkept.Error()+".")
	default:
		f.say(theme.Label, "Kept for "+s.desk.Who+".")
	}
	f.skip(1)
	for i, o := range s.options() {
		f.option(i+1, o.says)
	}
}

func (s *lessonPage) foot(sz sizes) foot {
	switch s.phase {
	case lessonIntro:
		return foot{prompt: "ready?", hint: "Enter begins", keys: footer("begin", "back", "help", "theme", "large")}
	case lessonAnswered:
		return foot{prompt: "read?", hint: "Enter goes on", keys: footer("go on", "pause", "help", "theme", "large")}
	case lessonOver:
		return foot{prompt: "which?", hint: "Enter = 1, " + s.options()[0].word, keys: footer("choose", "back", "help", "theme", "large")}
	}
	task, _ := s.class.Task()
	f := foot{prompt: "which?", hint: wanted(task), keys: footer("take it", "pause", "help", "theme", "large")}
	switch task.Kind {
	case lesson.TaskWork:
		f.prompt, f.hint, f.keys[0].label = "ready?", "Enter goes to the telescope", "to the telescope"
	case lesson.TaskReading:
		f.prompt = "where is it?"
	case lesson.TaskWay:
		f.prompt = "which way?"
	case lesson.TaskDeed:
		f.prompt = "what first?"
	}
	if s.look != nil {
		f.caution = s.reply
	}
	if sz.narrow() {
		f.hint = cutWords(f.hint, sz.Understood.W)
	}
	return f
}
