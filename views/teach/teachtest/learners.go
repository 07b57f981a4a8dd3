package teachtest

import (
	"fmt"
	"math/rand/v2"

	"spotward/optics"
	"spotward/session"
	"spotward/session/lesson"
	"spotward/session/words"
	"spotward/views/teach"
)

// Take has a trainee take a lesson, and returns what came of it; one that has
// not come to its end after so many lines is not passed.
func Take(c *teach.Class, typed Trainee, lines int) (lesson.Result, error) {
	for range lines {
		if c.Over() {
			break
		}
		line := typed(c)
		w := c.Work()
		if w == nil {
			c.Line(line) // what is not understood is not taken, and somebody types on
			continue
		}
		if _, err := w.Line(line); err != nil {
			continue
		}
		if _, _, err := c.Played(); err != nil {
			return c.Result(), err
		}
		if w.Over() && !w.State().Over {
			break
		}
	}
	return c.Result(), nil
}

// Enter presses Enter, whatever is asked.
func Enter() Trainee { return func(*teach.Class) string { return "" } }

// EnterAndOne presses Enter; where that is not taken, the first answer or the
// place of an example is typed.
func EnterAndOne() Trainee {
	n := 0
	return func(c *teach.Class) string {
		switch task, _ := c.Task(); {
		case task.Kind == lesson.TaskShow:
			return ""
		case task.Kind == lesson.TaskQuestion:
			return "1"
		case task.Kind != lesson.TaskWork:
			return "4:30 2r"
		}
		n++
		if ask := c.Work().State().Ask(); ask.Want == session.WantReading && c.Work().Shown().Told() == nil {
			return []string{"in", "same", "home"}[n%3]
		}
		return ""
	}
}

// Guess answers by chance, from what can be typed.
func Guess(seed uint64) Trainee {
	r := rand.New(rand.NewPCG(seed, 1))
	place := func(f optics.Face) string {
		far := 12.0 // mm: the laser's face, or a part of the primary
		if f == optics.FacePrimary {
			far = 40
		}
		return words.ReadingText(optics.AtHour(float64(r.IntN(24))/2, far*r.Float64()))
	}
	troubles := []string{"stuck", "free", "end", "sticky", "stripped", "slipped"}
	return func(c *teach.Class) string {
		task, _ := c.Task()
		if can := c.Can(); can != nil && (task.Kind == lesson.TaskDeed || r.IntN(2) == 0) {
			return can[r.IntN(len(can))].Word
		}
		switch task.Kind {
		case lesson.TaskShow:
			return ""
		case lesson.TaskQuestion:
			return fmt.Sprint(1 + r.IntN(len(task.Options)))
		case lesson.TaskReading:
			return place(task.Face)
		case lesson.TaskWay:
			return fmt.Sprintf("%d:%02d", 1+r.IntN(12), 30*r.IntN(2))
		}
		w := c.Work()
		ask := w.State().Ask()
		switch n := r.IntN(4); {
		case ask.Want == session.WantChoice:
			return fmt.Sprint(1 + r.IntN(len(ask.Options)))
		case task.Unnamed && n < 2:
			if n := r.IntN(len(troubles) + 2); n < len(troubles) {
				return troubles[n] + " " + string("ABC"[r.IntN(3)])
			} else if n == len(troubles) {
				return "other way"
			}
			return "dead laser"
		case task.Deeds != nil && n == 0:
			return "stop safely"
		case ask.Want != session.WantReading || w.Shown().Told() != nil:
			return ""
		case w.State().Told() != nil || n == 0:
			return fmt.Sprintf("%c %+d/8", "ABC"[r.IntN(3)], r.IntN(5)-2)
		case n == 1:
			return []string{"home", "even", "gone", "in", "dead"}[r.IntN(5)]
		}
		return place(ask.Face)
	}
}

// WrongWay reads every spot as it is and turns everything the other way.
func WrongWay() Trainee {
	good := Good()
	return func(c *teach.Class) string {
		w := c.Work()
		if w == nil {
			return good(c)
		}
		told := w.State().Told()
		if told == nil || w.State().Ask().Want != session.WantReading {
			return good(c)
		}
		var turns []optics.Turn
		for _, t := range told.Turns() {
			if t.Screw == "" {
				return good(c) // a lock
			}
			t.Turns = -t.Turns
			turns = append(turns, t)
		}
		return TurnsText(turns)
	}
}
