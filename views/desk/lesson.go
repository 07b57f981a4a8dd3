package desk

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"time"

	"spotward/optics"
	"spotward/optics/virtual"
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
	deeds  int             // that the telescope had seen before the task in hand
	errMM  float64         // how far it was out of true then
	done   []string        // at it, since a light last showed what came of it
	tested map[string]bool // what was done at it and seen
	stop   time.Time       // since when it is being made safe
	misses struct{ hours, part float64 }
	result session.LessonResult
}

// Teach begins a lesson.
func (d *Desk) Teach(l session.Lesson) (*Class, error) {
	c := &Class{Lesson: l, desk: d, result: session.NewLessonResult(l)}
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

// Can lists what can be done at the telescope in a task that is answered by
// Line, beside answering; nil is nothing.
func (c *Class) Can() []practice.Act {
	if t := c.Lesson.Tasks[c.task]; t.Kind == session.TaskDeed || t.Tests != nil {
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

// set sets up what the task in hand needs.
func (c *Class) set() error {
	c.tries, c.done, c.tested = 0, nil, map[string]bool{}
	if c.Over() {
		return nil
	}
	t := c.Lesson.Tasks[c.task]
	if t.World != nil {
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
	if err := c.prepare(t); err != nil || c.work == nil {
		return err
	}
	c.from = c.work.State()
	c.work.Bench.Forget()
	truth := c.work.Bench.World()
	c.deeds, c.errMM = len(truth.Deeds()), truth.Truth().ErrorMM
	return nil
}

// prepare does what has been done before the trainee comes.
func (c *Class) prepare(t session.Task) error {
	if t.Carried {
		if err := c.act("swing"); err != nil {
			return err
		}
	}
	switch {
	case t.Kind == session.TaskWork:
		if err := c.lead(t); err != nil {
			return err
		}
		if t.Counted {
			c.possible(c.work.State(), t.From)
		}
	case t.Kind == session.TaskReading, t.Kind == session.TaskWay, t.Kind == session.TaskQuestion && t.Face != "" && t.Tests == nil:
		if err := c.act("card on", "laser on"); err != nil {
			return err
		}
	}
	if t.Clumsy {
		c.work.Bench.World().SetHands(virtual.Hands{OtherWay: 1})
	}
	if t.Turn.Screw == "" {
		return nil
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
			return nil
		}
		ev := c.work.Bench.Ideal(s, t.Verdict)
		if t.Told && ev.Kind == session.KindReading && ev.Face == optics.FacePrimary {
			ev = session.Event{Kind: session.KindReading, Face: ev.Face, Saw: session.SawWithin}
		}
		if err := c.work.Send(ev); err != nil {
			return err
		}
	}
	return fmt.Errorf("lesson %s: task %d never comes to %q", c.Lesson.ID, c.task+1, t.From)
}

// possible adds the moves that would do to what the task in hand asks for.
func (c *Class) possible(s session.State, from session.StageID) {
	bench := c.work.Bench
	switch from {
	case session.StageFirstLook, session.StageSecondary:
		c.result.Possible += bench.Possible(optics.Secondary, s.GoalOnPrimary())
	case session.StageHome:
		c.result.Possible += bench.Possible(optics.Primary, s.GoalOnTarget())
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
	t, s := c.Lesson.Tasks[c.task], c.work.State()
	c.timeStop(s)
	tired := t.Looks > 0 && s.Looks-c.from.Looks > t.Looks
	if !t.Until(s) && !c.work.Over() && !tired {
		return false, "", nil
	}
	return true, c.outcome(t, s), c.next()
}

// outcome counts and says what came of work that is done.
func (c *Class) outcome(t session.Task, s session.State) string {
	elsewhere := c.elsewhere(t)
	said := []string{"That is it."}
	switch {
	case !t.Met(s):
		c.fail()
		said = []string{"Not this time."}
	case elsewhere != "":
		c.fail()
		said = []string{"Not this time: what was said is not what is to be seen.", elsewhere}
	case t.Answer:
		said = append(said, answerWords(s))
	case t.Truth:
		said = append(said, t.Why, c.truthWords())
	}
	if !t.Truth {
		said = append(said, t.Why)
	}
	return strings.Join(strings.Fields(strings.Join(said, " ")), " ")
}

func (c *Class) fail() {
	c.failed++
	c.result.Wrong++
}

// elsewhere returns what is to be seen on a face that counts at the end, where
// that was not what was read there last; "" where all was.
func (c *Class) elsewhere(t session.Task) string {
	for _, f := range t.Seen {
		if read, ok := c.work.Bench.LastOn(f); ok && !read.Honest() {
			return c.work.Bench.Look(f).Words
		}
	}
	return ""
}

// timeStop takes the time from the wish to stop until all is safe.
func (c *Class) timeStop(s session.State) {
	switch {
	case s.Over && s.Outcome == session.OutcomeStopped:
		c.result.Stopped = true
		if !c.stop.IsZero() {
			c.result.StopSec = max(c.result.StopSec, c.desk.Now().Sub(c.stop).Seconds())
		}
		c.stop = time.Time{}
	case s.Ask().Stage.ID != session.StageStopping:
		c.stop = time.Time{}
	case c.stop.IsZero():
		c.stop = c.desk.Now()
	}
}

// next counts what came of the task in hand and goes on to the one after it.
func (c *Class) next() error {
	c.count()
	c.task++
	return c.set()
}

// count adds what was done in the task in hand to the result.
func (c *Class) count() {
	if c.work == nil {
		return
	}
	s, bench := c.work.State(), c.work.Bench
	c.result.Looks += s.Looks - c.from.Looks
	c.result.Moves += s.Moves - c.from.Moves
	tally := bench.Tally()
	c.result.Readings += tally.Placed
	c.result.Good += tally.Good
	c.result.Swapped += tally.Swapped
	c.result.Lit += tally.Lit
	c.result.Carded += tally.Carded
	c.misses.hours += tally.HoursMiss * float64(tally.Placed)
	c.misses.part += tally.PartMiss * float64(tally.Placed)
	for _, deed := range bench.World().Deeds()[c.deeds:] {
		if !slices.Contains(c.result.Deeds, string(deed)) {
			c.result.Deeds = append(c.result.Deeds, string(deed))
		}
	}
}

// Result sums the lesson up.
func (c *Class) Result() session.LessonResult {
	r := c.result
	if n := float64(r.Readings); n > 0 {
		r.HoursOff, r.PartOff = hundredths(c.misses.hours/n), hundredths(c.misses.part/n)
	}
	r.Passed = c.Over() && c.failed == 0 && !(c.Lesson.Clean && len(r.Deeds) > 0)
	for _, t := range c.Lesson.Tasks {
		if t.Kind == session.TaskQuestion && r.Wrong > 0 {
			r.Passed = false // what is a matter of safety or sense is right the first time
		}
	}
	return r
}

func hundredths(v float64) float64 { return math.Round(100*v) / 100 }

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
