package lesson

// Criterion is one of the things that an instructor signs off.
type Criterion struct {
	Words string
	Met   bool
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
		{"the dial within half an hour and a quarter of the distance in 9 of 10", readsTheDial(results)},
		{"the card before the laser, without being told", newest(results, func(r Result) bool { return r.Lit > 0 }, func(r Result) bool { return r.Carded == r.Lit })},
		{"a good scope left alone, twice of twice", newest(results, ofLesson(Leave), passed)},
		{"at most one and a half times the moves that would have done", fewMoves(results)},
		{"a loose screw found, the primary not touched", newest(results, ofLesson(Swing), passed)},
		{"made safe within two minutes when something was wrong", newest(results, func(r Result) bool { return r.V >= 2 && r.Stopped }, func(r Result) bool { return r.StopSec <= signOffStopSec })},
	}
}

func passed(r Result) bool { return r.Passed }

func ofLesson(id string) func(Result) bool {
	return func(r Result) bool { return r.Lesson == id }
}

// newest reports whether the newest result that is one has met what is asked;
// none has not.
func newest(results []Result, isOne, met func(Result) bool) bool {
	for i := len(results) - 1; i >= 0; i-- {
		if isOne(results[i]) {
			return met(results[i])
		}
	}
	return false
}

// readsTheDial looks at the newest readings.
func readsTheDial(results []Result) bool {
	readings, good := 0, 0
	for i := len(results) - 1; i >= 0 && readings < signOffReadings; i-- {
		readings, good = readings+results[i].Readings, good+results[i].Good
	}
	return readings >= signOffReadings && signOffReadings*good >= signOffGood*readings
}

// fewMoves looks at the newest time that each lesson with something to turn was
// passed, all together: one telescope alone may be unkind.
func fewMoves(results []Result) bool {
	moves, possible := 0, 0
	seen := map[string]bool{}
	for i := len(results) - 1; i >= 0; i-- {
		r := results[i]
		if !r.Passed || r.Possible == 0 || seen[r.Lesson] {
			continue
		}
		seen[r.Lesson] = true
		moves, possible = moves+r.Moves, possible+r.Possible
	}
	return possible > 0 && fewEnough(moves, possible)
}

// FewMoves reports whether the moves are few for that telescope.
func (r Result) FewMoves() bool { return fewEnough(r.Moves, r.Possible) }

// fewEnough reports whether moves are at most one and a half times what would
// have done, rounded up.
func fewEnough(moves, possible int) bool { return 2*moves <= 3*possible+1 }
