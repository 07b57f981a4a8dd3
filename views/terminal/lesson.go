package terminal

import (
	"fmt"
	"strings"

	"github.com/charmbracelet/bubbletea"

	"spotward/optics"
	"spotward/session/lesson"
	"spotward/session/reading"
	"spotward/session/words"
	"spotward/views/desk"
)

// lessonPage is a lesson in hand: what it is for, its tasks one after the
// other, and what came of it. A task that is work is played on a session's own
// screen, over this one.
type lessonPage struct {
	class *desk.Class
	desk  *desk.Desk
	n     int // of the ladder, from 1
	phase lessonPhase

	reply  string       // to the last answer
	asked  lesson.Task  // the one it is to
	look   *lessonLook  // what was to be seen then; nil = nothing
	typed  *optics.Dial // the place that was answered; nil = none
	after  []string     // how work compares with what was there
	played *align       // the task in hand, as it is played; nil = it is not
	unkept error        // why the result could not be kept; nil = it was, or was not to be
}

// lessonPhase is what a lesson shows.
type lessonPhase uint8

const (
	lessonIntro    lessonPhase = iota // what it is for
	lessonAsked                       // a task
	lessonAnswered                    // what the answer was worth
	lessonOver                        // what came of it
)

// beginLesson shows lesson n of the ladder, from 1.
func beginLesson(a *app, d *desk.Desk, n int) {
	class, err := d.Teach(lesson.All()[n-1])
	if err != nil {
		a.fail(err)
		return
	}
	a.push(&lessonPage{class: class, desk: d, n: n})
}

func (s *lessonPage) take(a *app, text string) tea.Cmd {
	word := strings.ToLower(strings.TrimSpace(text))
	switch word {
	case "q", "quit", "leave":
		return s.leave(a)
	}
	switch s.phase {
	case lessonAsked:
		s.answer(a, word)
	case lessonOver:
		return s.choose(a, word)
	default:
		if word != "" {
			a.onlyEnter()
			return nil
		}
		s.goOn(a)
	}
	return nil
}

// goOn goes to the next task, or to the end.
func (s *lessonPage) goOn(a *app) {
	s.reply, s.look, s.typed, s.after = "", nil, nil, nil
	if !s.class.Over() {
		s.phase = lessonAsked
		s.look = lookFor(s.class)
		return
	}
	s.phase = lessonOver
	a.exit = exitUnfinished
	if s.class.Result().Passed {
		a.exit = exitDone
	}
	if s.unkept = s.class.Close(); s.unkept != nil {
		a.fail(s.unkept)
	}
}

// answer takes the answer to the task in hand; work is gone to.
func (s *lessonPage) answer(a *app, word string) {
	task, n := s.class.Task()
	if w := s.class.Work(); w != nil {
		if word != "" {
			a.onlyEnter()
			return
		}
		s.played = newAlign(w)
		s.played.by = &lessonBeside{s}
		s.asked = task
		a.push(s.played)
		return
	}
	if word == "" {
		a.fail(fmt.Errorf("say %s", wanted(task)))
		return
	}
	typed, bench := s.place(word), s.class.Bench()
	reply, err := s.class.Line(word)
	if err != nil {
		a.fail(err)
		return
	}
	a.used()
	s.reply, s.typed, s.asked = reply, typed, task
	if task.Kind == lesson.TaskDeed {
		s.look.view = bench.Look(task.Face) // with the laser on, where it falls
	}
	if s.class.Over() {
		s.phase = lessonAnswered
	} else if _, now := s.class.Task(); now != n {
		s.phase = lessonAnswered
	} else if s.class.Can() != nil {
		s.look = lookFor(s.class) // what was done may have changed it
	}
}

// wanted says what an answer to a task is.
func wanted(t lesson.Task) string {
	switch t.Kind {
	case lesson.TaskQuestion:
		if t.Tests != nil {
			return fmt.Sprintf("what you do, or a number from 1 to %d", len(t.Options))
		}
		return fmt.Sprintf("a number from 1 to %d", len(t.Options))
	case lesson.TaskDeed:
		return "what you do; F1 lists what there is"
	case lesson.TaskWay:
		return "which way it went, as in 4:30, or low right"
	}
	if t.Face == optics.FaceTarget {
		return "where it is, as in 10:30 4 rings, or 10:30 8"
	}
	return "where it is, as in 10:30 2r, or 2 1/3"
}

// place is where a typed reading puts the spot; nil where it says no place, or
// none is asked for.
func (s *lessonPage) place(typed string) *optics.Dial {
	if s.look == nil || s.class.Over() {
		return nil
	}
	if task, _ := s.class.Task(); task.Kind != lesson.TaskReading {
		return nil
	}
	said, err := reading.Parse(typed, s.look.context())
	if err != nil || !said.HasPlace() {
		return nil
	}
	return &said.At
}

// echo understands a line as it is typed.
func (s *lessonPage) echo(typed string) (string, bool) {
	if s.phase != lessonAsked || s.look == nil {
		return "", false
	}
	task, _ := s.class.Task()
	switch task.Kind {
	case lesson.TaskReading:
	case lesson.TaskWay:
		typed += " 10" // the way is wanted, whatever the distance
	default:
		return "", false
	}
	said, err := reading.Parse(typed, s.look.context())
	if err != nil || !said.HasPlace() {
		return "", false
	}
	if task.Kind == lesson.TaskWay {
		return "toward " + words.HourWords(said.At), true
	}
	return said.Echo(), true
}

func (s *lessonPage) nudge(typed string, right, up int) (string, bool) {
	at := s.place(typed)
	if s.phase != lessonAsked || at == nil {
		return "", false
	}
	return nudged(*at, right, up, 0), true
}

func (s *lessonPage) point(sz sizes, aspect float64, col, row int) (string, bool) {
	if s.phase != lessonAsked || s.look == nil {
		return "", false
	}
	if task, _ := s.class.Task(); task.Kind != lesson.TaskReading {
		return "", false
	}
	return pointed(sz.Ring, s.look.own(sz, nil).RimMM, aspect, col, row, 0)
}

// choose goes on from the end of a lesson.
func (s *lessonPage) choose(a *app, word string) tea.Cmd {
	options := s.options()
	for i, o := range options {
		if word == fmt.Sprint(i+1) || word == o.word || word == "" && i == 0 {
			a.pop()
			if o.lesson > 0 {
				beginLesson(a, s.desk, o.lesson)
			}
			return nil
		}
	}
	a.fail(errNumber(len(options)))
	return nil
}

// lessonOption is a way on from the end of a lesson.
type lessonOption struct {
	word, says string
	lesson     int // 0 = the ladder
}

func (s *lessonPage) options() []lessonOption {
	again := lessonOption{"again", "take it again", s.n}
	ladder := lessonOption{"ladder", "back to the ladder", 0}
	if s.n == len(lesson.All()) {
		return []lessonOption{ladder, again}
	}
	next := lessonOption{"next", "the next one: " + lesson.All()[s.n].Title, s.n + 1}
	if !s.class.Result().Passed {
		return []lessonOption{again, next, ladder}
	}
	return []lessonOption{next, again, ladder}
}

// returned sees whether the work that was played here was left.
func (s *lessonPage) returned(a *app) {
	w := s.played
	s.played = nil
	if w != nil && w.work.Over() && !w.state().Over && s.phase == lessonAsked {
		s.leave(a)
	}
}

// leave leaves the lesson; nothing is kept of it.
func (s *lessonPage) leave(a *app) tea.Cmd {
	over := s.phase == lessonOver || s.phase == lessonIntro
	cmd := a.pop()
	if !over {
		a.say("The lesson was left. Nothing is kept of it.")
	}
	return cmd
}

func (s *lessonPage) esc(a *app) {
	if s.phase == lessonOver || s.phase == lessonIntro {
		s.leave(a)
		return
	}
	a.push(&lessonPause{s})
}
