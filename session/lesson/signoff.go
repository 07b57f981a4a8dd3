package lesson

import (
	"slices"
	"time"
)

// Criterion is one of the things that an instructor signs off.
type Criterion struct {
	Words string
	Met   bool
	T     time.Time // where it is met: when it was shown last
	On    []string  // and on which telescopes
}

// What is asked of the one who is signed off. Trainers' judgement.
const (
	signOffReadings = 10
	signOffGood     = 9
	signOffStopSec  = 120
)

// SignOff returns how a trainee's results, oldest first, stand against what is
// signed off. What was done decides, and of that the newest; what was answered
// does not, and neither does speed, but for a stop.
func SignOff(results []Result) []Criterion {
	return []Criterion{
		criterion("the dial within half an hour and a quarter of the distance in 9 of 10", readsTheDial(results)),
		criterion("the card before the laser, without being told", newest(results, func(r Result) bool { return r.Lit > 0 }, func(r Result) bool { return r.Carded == r.Lit })),
		criterion("good scopes left alone, and one that was not", newest(results, ofLesson(Leave), passed)),
		criterion("at most one and a half times the moves that would have done", fewMoves(results)),
		criterion("a loose screw found, the primary not touched", newest(results, ofLesson(Swing), passed)),
		criterion("made safe within two minutes when something was wrong", newest(results, func(r Result) bool { return r.V >= 2 && r.Stopped }, func(r Result) bool { return r.StopSec <= signOffStopSec })),
		criterion("three scopes nobody had seen, aligned without advice", newest(results, ofLesson(Exam), passed)),
	}
}

// criterion is met where there are results that show it.
func criterion(words string, shown []Result) Criterion {
	c := Criterion{Words: words, Met: len(shown) > 0}
	for _, r := range shown {
		if r.T.After(c.T) {
			c.T = r.T
		}
		for _, on := range r.On {
			if !slices.Contains(c.On, on) {
				c.On = append(c.On, on)
			}
		}
	}
	return c
}

func passed(r Result) bool { return r.Passed }

func ofLesson(id string) func(Result) bool {
	return func(r Result) bool { return r.Lesson == id }
}

// newest returns the newest result that is one, if it has met what is asked;
// none has not.
func newest(results []Result, isOne, met func(Result) bool) []Result {
	for i := len(results) - 1; i >= 0; i-- {
		if !isOne(results[i]) {
			continue
		}
		if met(results[i]) {
			return results[i : i+1]
		}
		return nil
	}
	return nil
}

// readsTheDial looks at the newest readings.
func readsTheDial(results []Result) []Result {
	readings, good := 0, 0
	i := len(results)
	for i > 0 && readings < signOffReadings {
		i--
		readings, good = readings+results[i].Readings, good+results[i].Good
	}
	if readings >= signOffReadings && signOffReadings*good >= signOffGood*readings {
		return results[i:]
	}
	return nil
}

// fewMoves looks at the newest time that each lesson with something to turn was
// passed, all together: one telescope alone may be unkind.
func fewMoves(results []Result) []Result {
	moves, possible := 0, 0
	seen := map[string]bool{}
	var of []Result
	for i := len(results) - 1; i >= 0; i-- {
		r := results[i]
		if !r.Passed || r.Possible == 0 || seen[r.Lesson] {
			continue
		}
		seen[r.Lesson] = true
		moves, possible = moves+r.Moves, possible+r.Possible
		of = append(of, r)
	}
	if possible > 0 && fewEnough(moves, possible) {
		return of
	}
	return nil
}

// FewMoves reports whether the moves are few for that telescope.
func (r Result) FewMoves() bool { return fewEnough(r.Moves, r.Possible) }

// fewEnough reports whether moves are at most one and a half times what would
// have done, rounded up.
func fewEnough(moves, possible int) bool { return 2*moves <= 3*possible+1 }
