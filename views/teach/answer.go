package teach

import (
	"errors"
	"fmt"
	"math"
	"strings"

	"spotward/session/lesson"
	"spotward/session/reading"
	"spotward/session/words"
	"spotward/views/practice"
)

// Line takes the answer to a task that is not work. The reply is kind and says
// why; an error is a line that was not understood.
func (c *Class) Line(text string) (reply string, err error) {
	t := c.Lesson.Tasks[c.task]
	if reply, done, err := c.deed(t, text); done || err != nil {
		return reply, err
	}
	right, reply, err := c.judge(t, text)
	if err != nil {
		return "", err
	}
	c.tries++
	if !right {
		if c.tries == 1 {
			c.result.Wrong++
			if t.Kind == lesson.TaskQuestion {
				c.slips++
			}
		}
		if t.Kind != lesson.TaskQuestion && c.tries >= manyTries {
			c.failed++
			return reply + " " + t.Why, c.next()
		}
		return reply + " Try again.", nil
	}
	return strings.TrimSpace(reply + " " + t.Why), c.next()
}

// deed takes a line that says what is done at the telescope. What was done
// last in a task that asks for a deed ends it: rightly, if nothing that was
// done by then would have done harm.
func (c *Class) deed(t lesson.Task, text string) (reply string, done bool, err error) {
	if c.Can() == nil {
		return "", false, nil
	}
	typed, ok := c.work.Bench.Act(text)
	if !ok {
		return "", false, nil
	}
	if err := c.work.Send(typed.Events...); err != nil {
		return "", false, err
	}
	word := typed.Events[0].Text
	if c.done = append(c.done, word); c.work.Bench.World().Lit() {
		for _, d := range c.done {
			c.tested[d] = true
		}
		c.done = nil
	}
	reply = "Done: " + strings.TrimSuffix(typed.Echo, ".") + ". "
	if t.Kind != lesson.TaskDeed || word != t.Ends {
		return strings.TrimSpace(reply), true, nil
	}
	if len(c.work.Bench.Deeds()) > 0 {
		c.fail()
		reply += "Not this time. "
	} else {
		reply += "That is it. "
	}
	return reply + t.Why, true, c.next()
}

// notQuite goes before what is said to a place that was not read well enough.
const notQuite = "Not quite. "

// manyTries is how often a place is read before the lesson goes on.
const manyTries = 2

func (c *Class) judge(t lesson.Task, text string) (right bool, reply string, err error) {
	switch t.Kind {
	case lesson.TaskShow:
		if strings.TrimSpace(text) != "" {
			return false, "", errors.New("nothing is asked here: press Enter to go on")
		}
		return true, "", nil
	case lesson.TaskQuestion:
		return c.choose(t, text)
	case lesson.TaskDeed:
		return false, "", fmt.Errorf("say what you do: one of %s", practice.ActWords(c.Can()))
	case lesson.TaskReading:
		return c.place(t, text)
	case lesson.TaskWay:
		return c.way(t, text)
	}
	return false, "", errors.New("this is to be done at the telescope: answer what is asked there")
}

func (c *Class) choose(t lesson.Task, text string) (bool, string, error) {
	for i, o := range t.Options {
		if text != fmt.Sprint(i+1) && !strings.EqualFold(text, o.ID) {
			continue
		}
		for _, test := range t.Tests {
			if !c.tested[test] {
				return false, "", fmt.Errorf("that would be a guess: first %s", strings.Join(t.Tests, ", then "))
			}
		}
		if o.ID == t.Right {
			return true, "Yes.", nil
		}
		return false, strings.TrimSpace("Not that one. " + t.Wrong[o.ID]), nil
	}
	return false, "", fmt.Errorf("say a number from 1 to %d", len(t.Options))
}

func (c *Class) place(t lesson.Task, text string) (bool, string, error) {
	s := c.work.State()
	said, err := reading.Parse(text, reading.Context{Tel: s.Tel, Face: t.Face})
	if err != nil {
		return false, "", err
	}
	if !said.HasPlace() {
		return false, "", errors.New("say where it is: a clock position and a distance")
	}
	r := c.work.Bench.Compare(s, t.Face, said.At)
	c.result.Readings++
	c.misses.hours += r.HoursOff()
	c.misses.part += math.Abs(r.PartOff())
	words := "It stood at " + words.PlaceWords(t.Face, r.There, r.There.Len()) + "."
	switch {
	case r.Good():
		c.result.Good++
		return true, "Yes. " + words, nil
	case c.tries+1 >= manyTries:
		return false, notQuite + words, nil
	case r.Swapped():
		c.result.Swapped++
		return false, notQuite + "Left and right have changed places. It happens to everybody.", nil
	case r.HoursOff() > 0.5:
		return false, notQuite + "The distance aside: look at the clock once more.", nil
	}
	return false, notQuite + "The clock is right. Judge the distance once more.", nil
}

// goodWayHours is how near to the true way counts: eyes and slack allow no
// more. Trainers' judgement.
const goodWayHours = 1

func (c *Class) way(t lesson.Task, text string) (bool, string, error) {
	s := c.work.State()
	said, err := reading.Parse(text+" 10", reading.Context{Tel: s.Tel, Face: t.Face})
	if err != nil || !said.HasPlace() {
		return false, "", errors.New("say which way it went: a clock position, as in 4:30, or words, as in low right")
	}
	went := c.work.Bench.Went()
	off := math.Abs(math.Remainder(said.At.Hour()-went.Hour(), 12))
	words := "It went toward " + words.HourWords(went) + "."
	if off <= goodWayHours {
		return true, "Yes. " + words, nil
	}
	if c.tries+1 >= manyTries {
		return false, notQuite + words, nil
	}
	return false, "Not that way. From where it was before to where it is now.", nil
}
