package teach

import (
	"fmt"
	"strings"

	tea "github.com/charmbracelet/bubbletea"

	"spotward/optics"
	"spotward/session/lesson"
	"spotward/session/reading"
	"spotward/session/words"
	"spotward/views/desk"
	"spotward/views/teach"
	"spotward/views/terminal/align"
	"spotward/views/terminal/frame"
)

// LessonPage is a lesson in hand: what it is for, its tasks one after the
// other, and what came of it. A task that is work is played on a session's own
// screen, over this one.
type LessonPage struct {
	Class *teach.Class
	Desk  *desk.Desk
	N     int // its number in the ladder
	Phase lessonPhase

	Reply  string        // to the last answer
	asked  lesson.Task   // the one it is to
	Look   *lessonLook   // what was to be seen then; nil = nothing
	typed  *optics.Dial  // the place that was answered; nil = none
	after  []string      // how work compares with what was there
	played *align.Screen // the task in hand, as it is played; nil = it is not
	unkept error         // why the result could not be kept; nil = it was, or was not to be
}

// lessonPhase is what a lesson shows.
type lessonPhase uint8

const (
	lessonIntro    lessonPhase = iota // what it is for
	LessonAsked                       // a task
	LessonAnswered                    // what the answer was worth
	LessonOver                        // what came of it
)

// BeginLesson shows the lesson of that number in the ladder.
func BeginLesson(a *frame.App, d *desk.Desk, n int) {
	beginDrawn(a, d, n, teach.Draw(d, lesson.All()[n], a.Seed()))
}

// beginDrawn shows lesson n of the ladder as it was drawn.
func beginDrawn(a *frame.App, d *desk.Desk, n int, drawn lesson.Lesson) {
	class, err := teach.Begin(d, drawn)
	if err != nil {
		a.Fail(err)
		return
	}
	a.Push(&LessonPage{Class: class, Desk: d, N: n})
}

func (s *LessonPage) Take(a *frame.App, text string) tea.Cmd {
	word := strings.ToLower(strings.TrimSpace(text))
	switch word {
	case "q", "quit", "leave":
		return s.leave(a)
	}
	switch s.Phase {
	case LessonAsked:
		s.answer(a, word)
	case LessonOver:
		return s.choose(a, word)
	default:
		if word != "" {
			a.OnlyEnter()
			return nil
		}
		s.goOn(a)
	}
	return nil
}

// goOn goes to the next task, or to the end.
func (s *LessonPage) goOn(a *frame.App) {
	s.Reply, s.Look, s.typed, s.after = "", nil, nil, nil
	if !s.Class.Over() {
		s.Phase = LessonAsked
		s.Look = lookFor(s.Class)
		return
	}
	s.Phase = LessonOver
	a.Exit = frame.ExitUnfinished
	if s.Class.Result().Passed {
		a.Exit = frame.ExitDone
	}
	if s.unkept = s.Class.Close(); s.unkept != nil {
		a.Fail(s.unkept)
	}
}

// answer takes the answer to the task in hand; work is gone to.
func (s *LessonPage) answer(a *frame.App, word string) {
	task, n := s.Class.Task()
	if w := s.Class.Work(); w != nil {
		if word != "" {
			a.OnlyEnter()
			return
		}
		s.played = align.New(w)
		s.played.By = &lessonBeside{s}
		s.asked = task
		a.Push(s.played)
		return
	}
	if word == "" && task.Kind != lesson.TaskShow {
		a.Fail(fmt.Errorf("say %s", wanted(task)))
		return
	}
	typed, bench := s.place(word), s.Class.Bench()
	reply, err := s.Class.Line(word)
	if err != nil {
		a.Fail(err)
		return
	}
	a.Used()
	s.Reply, s.typed, s.asked = reply, typed, task
	if task.Kind == lesson.TaskDeed {
		s.Look.face = faceOf(task, bench)
		s.Look.View = bench.Look(s.Look.face) // with the laser on, where it falls
	}
	if task.Kind == lesson.TaskShow {
		s.goOn(a)
	} else if s.Class.Over() {
		s.Phase = LessonAnswered
	} else if _, now := s.Class.Task(); now != n {
		s.Phase = LessonAnswered
	} else if s.Class.Can() != nil {
		s.Look = lookFor(s.Class).after(s.Look) // what was done may have changed it
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
	return "where it is, as in 10:30 20, or 10:30 2r"
}

// place is where a typed reading puts the spot; nil where it says no place, or
// none is asked for.
func (s *LessonPage) place(typed string) *optics.Dial {
	if s.Look == nil || s.Class.Over() {
		return nil
	}
	if task, _ := s.Class.Task(); task.Kind != lesson.TaskReading {
		return nil
	}
	said, err := reading.Parse(typed, s.Look.context())
	if err != nil || !said.HasPlace() {
		return nil
	}
	return &said.At
}

// Echo understands a line as it is typed.
func (s *LessonPage) Echo(typed string) (string, bool) {
	if s.Phase != LessonAsked || s.Look == nil {
		return "", false
	}
	task, _ := s.Class.Task()
	switch task.Kind {
	case lesson.TaskReading:
	case lesson.TaskWay:
		typed += " 10" // the way is wanted, whatever the distance
	default:
		return "", false
	}
	said, err := reading.Parse(typed, s.Look.context())
	if err != nil || !said.HasPlace() {
		return "", false
	}
	if task.Kind == lesson.TaskWay {
		return "toward " + words.HourWords(said.At), true
	}
	return said.Echo(), true
}

func (s *LessonPage) Nudge(typed string, right, up int) (string, bool) {
	at := s.place(typed)
	if s.Phase != LessonAsked || at == nil {
		return "", false
	}
	return align.Nudged(s.Look.tel, s.Look.face, *at, right, up), true
}

func (s *LessonPage) Point(sz frame.Sizes, aspect float64, col, row int) (string, bool) {
	if s.Phase != LessonAsked || s.Look == nil {
		return "", false
	}
	if task, _ := s.Class.Task(); task.Kind != lesson.TaskReading {
		return "", false
	}
	return align.Pointed(sz.Yours, s.Look.own(sz, nil).RimMM, aspect, col, row, 0)
}

// choose goes on from the end of a lesson.
func (s *LessonPage) choose(a *frame.App, word string) tea.Cmd {
	options := s.options()
	for i, o := range options {
		if word == fmt.Sprint(i+1) || word == o.word || word == "" && i == 0 {
			a.Pop()
			switch {
			case o.lesson == s.N: // nothing is asked the way it was
				beginDrawn(a, s.Desk, s.N, lesson.All()[s.N].Another(a.Seed(), s.Class.Lesson.Seed))
			case o.lesson != noLesson:
				BeginLesson(a, s.Desk, o.lesson)
			}
			return nil
		}
	}
	a.Fail(align.ErrNumber(len(options)))
	return nil
}

// lessonOption is a way on from the end of a lesson.
type lessonOption struct {
	word, says string
	lesson     int // noLesson = the ladder
}

// noLesson is no number of a lesson.
const noLesson = -1

func (s *LessonPage) options() []lessonOption {
	again := lessonOption{"again", "take it again", s.N}
	ladder := lessonOption{"ladder", "back to the ladder", noLesson}
	if s.N == len(lesson.All())-1 {
		return []lessonOption{ladder, again}
	}
	next := lessonOption{"next", "the next one: " + lesson.All()[s.N+1].Title, s.N + 1}
	if !s.Class.Result().Passed {
		return []lessonOption{again, next, ladder}
	}
	return []lessonOption{next, again, ladder}
}

// Returned sees whether the work that was played here was left.
func (s *LessonPage) Returned(a *frame.App) {
	w := s.played
	s.played = nil
	if w != nil && w.Work.Over() && !w.State().Over && s.Phase == LessonAsked {
		s.leave(a)
	}
}

// leave leaves the lesson; nothing of it is saved.
func (s *LessonPage) leave(a *frame.App) tea.Cmd {
	over := s.Phase == LessonOver || s.Phase == lessonIntro
	cmd := a.Pop()
	if !over {
		a.Say("The lesson was left. Nothing of it is saved.")
	}
	return cmd
}

func (s *LessonPage) Esc(a *frame.App) {
	if s.Phase == LessonOver || s.Phase == lessonIntro {
		s.leave(a)
		return
	}
	a.Push(&lessonPause{s})
}
