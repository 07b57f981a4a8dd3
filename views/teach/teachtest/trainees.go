// Package teachtest has the trainees that the rooms' tests share.
package teachtest

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"spotward/optics"
	"spotward/session"
	"spotward/session/lesson"
	"spotward/session/scope"
	"spotward/session/sessiontest"
	"spotward/session/words"
	"spotward/views/desk"
	"spotward/views/teach"
)

// Trainee returns the line that somebody types next in a lesson.
type Trainee func(*teach.Class) string

// Good answers rightly, reads every spot as it is and turns what is told.
func Good() Trainee {
	done := map[string]int{} // deeds, by lesson and task
	return func(c *teach.Class) string {
		task, n := c.Task()
		deeds := map[lesson.TaskKind][]string{
			lesson.TaskDeed:     {"card on", "laser on"},
			lesson.TaskQuestion: {"card on", "laser on", "turn laser", "laser off", "re-seat", "laser on"},
		}[task.Kind]
		key := fmt.Sprint(c.Lesson.ID, n)
		if at := done[key]; c.Can() != nil && at < len(deeds) {
			done[key]++
			return deeds[at]
		}
		switch task.Kind {
		case lesson.TaskShow:
			return ""
		case lesson.TaskQuestion: // by the number that stands before it, as people do
			return rightNumber(task)
		case lesson.TaskReading:
			v := c.Bench().Look(task.Face)
			return words.ReadingText(telOf(task).ToDial(task.Face, v.Seen))
		case lesson.TaskWay:
			return words.ClockText(c.Bench().Went())
		}
		return goodWork(c)
	}
}

func goodWork(c *teach.Class) string {
	w := c.Work()
	s := w.State()
	ask := s.Ask()
	task, _ := c.Task()
	if task.Deeds != nil && ask.Stage.ID != session.StageStopping {
		return "stop safely"
	}
	if left := w.Bench.Undone(task.Deeds); ask.Step == session.StepSafe && len(left) > 0 {
		return left[0].Word
	}
	if w.Shown().Told() == nil && s.Told() != nil && ask.Want == session.WantReading {
		return TurnsText(s.Told().Turns()) // what one would think of
	}
	if ask.Want != session.WantReading || ask.Told != nil {
		if ask.Want == session.WantConfirm {
			return "yes"
		}
		return ""
	}
	if say := wrongHere(w); say != "" {
		return say
	}
	if task.Clumsy {
		return "other way"
	}
	before, _, stuck := strings.Cut(w.Felt(), " stops and will go no further: it is stuck.")
	if name := before[strings.LastIndex(before, " ")+1:]; stuck && !strings.HasSuffix(before, "Lock "+name) {
		return "lock " + name + " -1/8" // what blocks it is the lock beside it
	}
	v := w.Bench.Look(ask.Face)
	for _, f := range ask.Faces {
		if other := w.Bench.Look(f); f != ask.Face && !v.Visible && other.Visible {
			return sessiontest.PlaceWord(f) + " " + words.ReadingText(s.Tel.ToDial(f, other.Seen))
		}
	}
	switch {
	case v.InHole && ask.Face == optics.FaceTarget && v.Uneven():
		return "home " + words.ClockText(s.Tel.ToDial(ask.Face, v.Glow))
	case v.InHole && ask.Face == optics.FaceTarget && s.Moves == 0:
		return "home" // whether the glow shifts at a touch nobody can know yet
	case v.InHole && ask.Face == optics.FaceTarget:
		return "even"
	case !v.Visible:
		return "not there"
	}
	return words.ReadingText(s.Tel.ToDial(ask.Face, v.Seen))
}

// wrongHere returns what is to be said where something is wrong.
func wrongHere(w *desk.Work) string {
	screw, _, _ := strings.Cut(w.Felt(), " ")
	if screw == "" {
		screw = "B"
	}
	return map[string]string{
		"lesson-seized": "stuck " + screw, "lesson-short": "end " + screw, "lesson-slack": "free " + screw, "lesson-worn": "stripped " + screw,
		"lesson-dying": "dead laser",
	}[w.State().World.Level]
}

func telOf(task lesson.Task) optics.Telescope {
	return task.Of(scope.Builtin()).Telescope()
}

// Clumsy gets each answer wrong once, reads left for right at the first try,
// forgets the card once, and once says nothing of what a screw did.
func Clumsy() Trainee {
	slipped, good := map[string]bool{}, Good()
	slip := func(key string) bool {
		was := slipped[key]
		slipped[key] = true
		return !was
	}
	return func(c *teach.Class) string {
		task, n := c.Task()
		key := fmt.Sprint(c.Lesson.ID, n)
		line := good(c)
		switch {
		case task.Kind == lesson.TaskDeed && slip("card"):
			return "laser on"
		case task.Kind == lesson.TaskQuestion && line == rightNumber(task) && slip(key):
			return wrongOption(task)
		case task.Kind == lesson.TaskReading && slip(key):
			d := telOf(task).ToDial(task.Face, c.Bench().Look(task.Face).Seen)
			d.Right = -d.Right
			return words.ReadingText(d)
		case task.Kind == lesson.TaskWay && slip(key):
			return opposite(c)
		case strings.HasPrefix(line, "end "):
			return "same"
		}
		return line
	}
}

func opposite(c *teach.Class) string {
	went := c.Bench().Went()
	return words.ClockText(optics.Dial{Right: -went.Right, Up: -went.Up})
}

func rightNumber(task lesson.Task) string {
	return fmt.Sprint(1 + slices.IndexFunc(task.Options, func(o words.Option) bool { return o.ID == task.Right }))
}

func wrongOption(task lesson.Task) string {
	for _, o := range task.Options {
		if o.ID != task.Right {
			return o.ID
		}
	}
	return ""
}

// Wrong does what one should not: no card, screws forced, the primary first,
// nothing said that went wrong.
func Wrong() Trainee {
	tried, good := map[string]bool{}, Good()
	first := func(key string) bool {
		was := tried[key]
		tried[key] = true
		return !was
	}
	return func(c *teach.Class) string {
		task, n := c.Task()
		key := fmt.Sprint(c.Lesson.ID, n)
		switch task.Kind {
		case lesson.TaskShow:
			return ""
		case lesson.TaskReading:
			return "12 1"
		case lesson.TaskWay:
			return opposite(c)
		case lesson.TaskDeed:
			return "laser on"
		case lesson.TaskQuestion:
			if line := good(c); line != rightNumber(task) {
				return strings.Replace(line, "card on", "card off", 1)
			}
			if first(key) {
				return wrongOption(task)
			}
			return rightNumber(task)
		}
		ask := c.Work().State().Ask()
		switch {
		case c.Lesson.ID == "wrong" && ask.Want == session.WantReading && ask.Told == nil:
			return "not there"
		case c.Lesson.ID == "rough" && ask.Want == session.WantReading && ask.Told == nil:
			return "not there" // without looking
		case first(key):
			return "card off"
		case c.Lesson.ID == "swing" && ask.Stage.ID == session.StageSwing:
			return "skip no time"
		case task.From == session.StageReady && c.Work().State().VerdictTold():
			return "leave"
		case ask.Stage.ID == session.StageSecondary && first(key+"screw"):
			return "A +1"
		case ask.Stage.ID == session.StageHome && first(key+"lock"):
			return "lock A +1"
		case ask.Stage.ID == session.StageVerdict && c.Lesson.ID == "leave":
			return "both"
		case ask.Stage.ID == session.StageVerdict:
			return "leave"
		case ask.Want == session.WantReading && ask.Told == nil:
			return late(c.Work())
		}
		return good(c)
	}
}

// late is what one reads who holds the dial an hour and a half askew.
func late(w *desk.Work) string {
	s := w.State()
	face := s.Ask().Face
	v := w.Bench.Look(face)
	if !v.Visible {
		return "not there"
	}
	d := s.Tel.ToDial(face, v.Seen)
	return words.ReadingText(optics.AtHour(d.Hour()+1.5, d.Len()))
}

// TurnsText writes turns as they are typed: screws, or the first lock.
func TurnsText(turns []optics.Turn) string {
	var b strings.Builder
	for _, t := range turns {
		sign := "+"
		if t.Turns < 0 {
			sign = "-"
		}
		name := t.Screw
		if t.Lock != "" {
			name = "lock " + t.Lock
		}
		fmt.Fprintf(&b, "%s %s%s ", name, sign, words.TurnsText(math.Abs(t.Turns)))
		if t.Lock != "" {
			break // a lock is eased by itself
		}
	}
	return strings.TrimSpace(b.String())
}
