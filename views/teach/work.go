package teach

import (
	"fmt"
	"slices"
	"strings"
	"time"

	"spotward/session"
	"spotward/session/lesson"
	"spotward/session/words"
)

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
func (c *Class) outcome(t lesson.Task, s session.State) string {
	elsewhere := c.elsewhere(t)
	said := []string{"That is it."}
	switch {
	case !t.Met(s):
		c.fail()
		said = []string{"Not this time."}
	case elsewhere != "":
		c.fail()
		said = []string{"Not this time: what you said is not what there is to see.", elsewhere}
	case t.Seen != nil && !c.work.Bench.MostHonest():
		c.fail()
		said = []string{"Not this time: more than one spot in four was not where you said."}
	case t.Answer:
		said = append(said, answerWords(s))
	case t.Truth:
		said = append(said, t.Why, c.truthWords())
	}
	if !t.Truth {
		said = append(said, t.Why)
	}
	if t.Against {
		said = append(said, fmt.Sprintf("Moves: %d. The program would have told %d.", screwMoves(s)-screwMoves(c.from), c.against))
	}
	return strings.Join(strings.Fields(strings.Join(said, " ")), " ")
}

func (c *Class) fail() {
	c.failed++
	c.result.Wrong++
}

// elsewhere returns what is to be seen on a face that counts at the end, where
// that was not what was read there last; "" where all was.
func (c *Class) elsewhere(t lesson.Task) string {
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
	if c.Lesson.Tasks[c.task].Against {
		c.result.Moves += screwMoves(s) - screwMoves(c.from)
	} else {
		c.result.Moves += s.Moves - c.from.Moves
	}
	tally := bench.Tally()
	c.result.Readings += tally.Placed
	c.result.Good += tally.Good
	c.result.Swapped += tally.Swapped
	c.result.Lit += tally.Lit
	c.result.Carded += tally.Carded
	c.misses.hours += tally.HoursMiss * float64(tally.Placed)
	c.misses.part += tally.PartMiss * float64(tally.Placed)
	for _, deed := range bench.Deeds() {
		if !slices.Contains(c.result.Deeds, string(deed)) {
			c.result.Deeds = append(c.result.Deeds, string(deed))
		}
	}
}

// Result sums the lesson up.
func (c *Class) Result() lesson.Result {
	r := c.result
	if n := float64(r.Readings); n > 0 {
		r.HoursOff, r.PartOff = words.Round(c.misses.hours/n, 2), words.Round(c.misses.part/n, 2)
	}
	// What is a matter of safety or sense is right the first time.
	r.Passed = c.Over() && c.failed == 0 && c.slips == 0 && !overProgram(r) && !(c.Lesson.Clean && len(r.Deeds) > 0)
	return r
}
