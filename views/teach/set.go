package teach

import (
	"fmt"

	"spotward/optics"
	"spotward/optics/virtual"
	"spotward/session"
	"spotward/session/event"
	"spotward/session/lesson"
	"spotward/session/scope"
	"spotward/views/desk"
)

// set sets up what the task in hand needs.
func (c *Class) set() error {
	c.tries, c.done, c.tested = 0, nil, map[string]bool{}
	if c.Over() {
		return nil
	}
	t := c.Lesson.Tasks[c.task]
	if t.World != nil {
		scope := t.Of(scope.Builtin())
		var err error
		alone := desk.Desk{Who: c.desk.Who, Program: c.desk.Program, Now: c.desk.Now}
		if c.work, err = alone.Practice(scope, *t.World); err != nil {
			return err
		}
	}
	if c.work != nil {
		c.work.Bench.Unnamed(t.Unnamed) // what is felt on the way there as well
	}
	if err := c.prepare(t); err != nil || c.work == nil {
		return err
	}
	c.from = c.work.State()
	c.work.Bench.Forget()
	c.errMM = c.work.Bench.World().Truth().ErrorMM
	c.work.Advise(!t.Alone)
	c.work.Guard = c.guardOf(t)
	return nil
}

// prepare does what has been done before the trainee comes.
func (c *Class) prepare(t lesson.Task) error {
	if t.Carried {
		if err := c.act(lesson.ActSwing); err != nil {
			return err
		}
	}
	switch {
	case t.Kind == lesson.TaskWork:
		if err := c.lead(t); err != nil {
			return err
		}
		if t.Counted {
			c.possible(c.work.State(), t.From)
		}
		if t.Against {
			n, err := c.programMoves(t)
			if err != nil {
				return err
			}
			c.result.Program += n
			c.against = n
		}
	case t.Kind == lesson.TaskReading, t.Kind == lesson.TaskWay, t.Kind == lesson.TaskQuestion && t.Face != "" && t.Tests == nil:
		if err := c.act(lesson.ActCardOn, lesson.ActLaserOn); err != nil {
			return err
		}
	}
	if t.Clumsy {
		c.work.Bench.World().SetHands(virtual.Hands{OtherWay: 1})
	}
	if t.Turn.Screw == "" {
		return nil
	}
	return c.work.Send(event.Event{Kind: event.KindTurned, Turned: []optics.Turn{t.Turn}})
}

// guardOf holds back the word that all is safe until it is.
func (c *Class) guardOf(t lesson.Task) func(session.State, []event.Event) error {
	if t.Deeds == nil {
		return nil
	}
	return func(s session.State, events []event.Event) error {
		if s.Ask().Step != session.StepSafe || events[0].Kind != event.KindConfirm {
			return nil
		}
		if left := c.work.Bench.Undone(t.Deeds); len(left) > 0 {
			return fmt.Errorf("not safe yet: %s. Do it and say so, as in %s", left[0].Lacks, left[0].Word)
		}
		return nil
	}
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
func (c *Class) lead(t lesson.Task) error {
	for range farLead {
		s := c.work.State()
		other := t.Verdict != "" && t.Verdict != s.Verdict && s.VerdictTold()
		if s.Ask().Stage.ID == t.From && !other {
			return nil
		}
		// The spot is read after the turn; but another verdict comes before it.
		if told, ok := c.work.Bench.AsTold(s, ""); ok && !other {
			if err := c.work.Send(told.Events...); err != nil {
				return err
			}
			s = c.work.State()
		}
		ev := c.work.Bench.Ideal(s, t.Verdict)
		if t.Told && ev.Kind == event.KindReading && ev.Face == optics.FacePrimary {
			ev = event.Event{Kind: event.KindReading, Face: ev.Face, Saw: event.SawWithin}
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
