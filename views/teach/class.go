package teach

import (
	"time"

	"spotward/session"
	"spotward/session/lesson"
	"spotward/views/desk"
	"spotward/views/practice"
)

// Class is a lesson in hand. A task that is work is played like any session,
// on Work; the others are answered by Line. Nothing of it is kept beside the
// records of real scopes: see Close.
type Class struct {
	Lesson lesson.Lesson
	desk   *desk.Desk
	work   *desk.Work
	task   int
	tries  int
	failed int // tasks not reached in the end
	slips  int // questions not answered rightly the first time
	from   session.State
	errMM  float64         // how far it was out of true then
	done   []string        // at it, since a light last showed what came of it
	tested map[string]bool // what was done at it and seen
	stop   time.Time       // since when it is being made safe
	misses struct{ hours, part float64 }
	result lesson.Result
	// against is how many moves the program tells on the telescope in hand.
	against int
}

// Begin begins a lesson for the trainee at a desk.
func Begin(d *desk.Desk, l lesson.Lesson) (*Class, error) {
	c := &Class{Lesson: l, desk: d, result: lesson.NewResult(l)}
	return c, c.set()
}

// Over reports whether every task is done.
func (c *Class) Over() bool { return c.task >= len(c.Lesson.Tasks) }

// Task returns the task in hand, and which it is, from 1.
func (c *Class) Task() (lesson.Task, int) { return c.Lesson.Tasks[c.task], c.task + 1 }

// Work returns the session that the task in hand is played on; nil when it is
// answered by Line.
func (c *Class) Work() *desk.Work {
	if c.Over() || c.Lesson.Tasks[c.task].Kind != lesson.TaskWork {
		return nil
	}
	return c.work
}

// See says what is to be seen for a task that is answered by Line, in words.
func (c *Class) See() string {
	if f := c.Lesson.Tasks[c.task].Face; f != "" {
		return c.work.Bench.Look(f).Words
	}
	return ""
}

// Can lists what can be done at the telescope in a task that is answered by
// Line, beside answering; nil is nothing.
func (c *Class) Can() []practice.Act {
	if t := c.Lesson.Tasks[c.task]; t.Kind == lesson.TaskDeed || t.Tests != nil {
		return practice.Acts()
	}
	return nil
}

// Bench returns the practice telescope of the task in hand, for its picture;
// nil where none is needed.
func (c *Class) Bench() *practice.Bench {
	if c.work == nil {
		return nil
	}
	return c.work.Bench
}

// Before says, for a task that asks for a way, what was to be seen before the
// screw was turned; "" for others.
func (c *Class) Before() string {
	if c.Lesson.Tasks[c.task].Kind != lesson.TaskWay {
		return ""
	}
	return c.work.Bench.Before()
}

// Close keeps the result for the trainee, if there is a name and a shelf; a
// lesson that was left is not kept.
func (c *Class) Close() error {
	if !c.Over() || c.desk.Library == nil || c.desk.Who == "" {
		return nil
	}
	r := c.Result()
	r.T = c.desk.Now().UTC()
	return c.desk.Library.AddLesson(c.desk.Who, r)
}
