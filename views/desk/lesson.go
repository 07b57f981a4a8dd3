package desk

import (
	"fmt"
	"slices"
	"strings"

	"spotward/optics"
	"spotward/session"
	"spotward/views/practice"
)

// Class is a lesson in hand. A task that is work is played like any session,
// on Work; the others are answered by Line. Nothing of it is kept beside the
// records of real scopes: see Close.
type Class struct {
	Lesson session.Lesson
	desk   *Desk
	work   *Work
	task   int
	tries  int
	failed int // tasks not reached in the end
	from   session.State
	result session.LessonResult
}

// Teach begins a lesson.
func (d *Desk) Teach(l session.Lesson) (*Class, error) {
	c := &Class{Lesson: l, desk: d, result: session.LessonResult{V: 1, Lesson: l.ID, Tasks: len(l.Tasks)}}
	return c, c.set()
}

// Over reports whether every task is done.
func (c *Class) Over() bool { return c.task >= len(c.Lesson.Tasks) }

// Task returns the task in hand, and which it is, from 1.
func (c *Class) Task() (session.Task, int) { return c.Lesson.Tasks[c.task], c.task + 1 }

// Work returns the session that the task in hand is played on; nil when it is
// answered by Line.
func (c *Class) Work() *Work {
	if c.Over() || c.Lesson.Tasks[c.task].Kind != session.TaskWork {
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

// Bench returns the practice telescope of the task in hand, for its picture;
// nil where none is needed.
func (c *Class) Bench() *practice.Bench {
	if c.work == nil {
		return nil
	}
	return c.work.Bench
}

// set sets up what the task in hand needs.
func (c *Class) set() error {
	c.tries = 0
	if c.Over() {
		return nil
	}
	t := c.Lesson.Tasks[c.task]
	if t.World != nil {
		c.count()
		scope := session.Builtin()
		if t.FocuserAt != "" {
			scope.FocuserAt = t.FocuserAt
		}
		var err error
		alone := Desk{Who: c.desk.Who, Program: c.desk.Program, Now: c.desk.Now}
		if c.work, err = alone.Practice(scope, *t.World); err != nil {
			return err
		}
	}
	switch t.Kind {
	case session.TaskWork:
		return c.lead(t)
	case session.TaskQuestion:
		if t.Face == "" {
			return nil
		}
	}
	if err := c.act("card on", "laser on"); err != nil || t.Kind != session.TaskWay {
		return err
	}
	return c.work.Send(session.Event{Kind: session.KindTurned, Turned: []session.Turn{t.Turn}})
}

func (c *Class) act(words ...string) error {
	for _, word := range words {
		typed, _ := c.work.Bench.Act(word)
		if err := c.work.Send(typed.Events...); err != nil {
			return err
		}
	}
	return nil
}

// farLead is more than the longest way to any stage.
const farLead = 100

// lead brings the session to the stage that the task begins with.
func (c *Class) lead(t session.Task) error {
	for range farLead {
		s := c.work.State()
		if s.Ask().Stage.ID == t.From {
			c.from = s
			c.work.Bench.Forget()
			c.possible(s)
			return nil
		}
		if err := c.work.Send(c.work.Bench.Ideal(s, t.Verdict)); err != nil {
			return err
		}
	}
	return fmt.Errorf("lesson %s: task %d never comes to %q", c.Lesson.ID, c.task+1, t.From)
}

func (c *Class) possible(s session.State) {
	switch s.Ask().Stage.ID {
	case session.StageSecondary:
		c.result.Possible += c.work.Bench.Possible(optics.Secondary, s.GoalOnPrimary())
	case session.StageHome:
		c.result.Possible += c.work.Bench.Possible(optics.Primary, s.GoalOnTarget())
	}
}

// Before says, for a task that asks for a way, what was to be seen before the
// screw was turned; "" for others.
func (c *Class) Before() string {
	if c.Lesson.Tasks[c.task].Kind != session.TaskWay {
		return ""
	}
	return c.work.Bench.Before()
}

// Played goes on after a line was typed at Work. It reports whether the task
// is done, and what to say then.
func (c *Class) Played() (done bool, reply string, err error) {
	t := c.Lesson.Tasks[c.task]
	if !t.Until(c.work.State()) && !c.work.Over() {
		return false, "", nil
	}
	reply = "That is it. "
	if !t.Met(c.work.State()) {
		c.failed++
		c.result.Wrong++
		reply = "Not this time. "
	}
	return true, strings.TrimSpace(reply + t.Why), c.next()
}

func (c *Class) next() error {
	c.task++
	if c.Over() {
		c.count()
		return nil
	}
	return c.set()
}

// count adds what the telescope in hand has seen to the result.
func (c *Class) count() {
	if c.work == nil {
		return
	}
	s := c.work.State()
	if c.from.ID == s.ID && s.ID != "" {
		c.result.Looks += s.Looks - c.from.Looks
		c.result.Moves += s.Moves - c.from.Moves
		c.result.Stopped = c.result.Stopped || s.Outcome == session.OutcomeStopped
		tally := c.work.Bench.Tally()
		c.result.Readings += tally.Placed
		c.result.Good += tally.Good
		c.result.Swapped += tally.Swapped
	}
	for _, deed := range c.work.Bench.World().Deeds() {
		if !slices.Contains(c.result.Deeds, string(deed)) {
			c.result.Deeds = append(c.result.Deeds, string(deed))
		}
	}
	c.work = nil
}

// Result sums the lesson up.
func (c *Class) Result() session.LessonResult {
	r := c.result
	r.Passed = c.Over() && c.failed == 0 && !(c.Lesson.Clean && len(r.Deeds) > 0)
	for _, t := range c.Lesson.Tasks {
		if t.Kind == session.TaskQuestion && r.Wrong > 0 {
			r.Passed = false // what is a matter of safety or sense is right the first time
		}
	}
	return r
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
