package teach

import (
	"spotward/session/lesson"
	"spotward/views/desk"
)

// Progress is how far a trainee has come: of each lesson the result that
// counts, by the lesson's id. That is the newest, but one that was passed is
// not lost by trying again.
func Progress(results []lesson.Result) map[string]lesson.Result {
	best := map[string]lesson.Result{}
	for _, r := range results {
		if !best[r.Lesson].Passed || r.Passed {
			best[r.Lesson] = r
		}
	}
	return best
}

// Results returns every result of a desk's trainee, oldest first: none where
// there is no name or nothing is kept.
func Results(d *desk.Desk) ([]lesson.Result, error) {
	if d.Library == nil || d.Who == "" {
		return nil, nil
	}
	return d.Library.LessonsOf(d.Who)
}

// PassedWords says how a lesson stands, in a few words.
func PassedWords(r lesson.Result) string {
	if r.Passed {
		return "passed " + r.T.Local().Format("2006-01-02")
	}
	return "not passed yet"
}

// Draw draws a lesson from seed for the trainee at a desk: another one than that
// one had the last time.
func Draw(d *desk.Desk, l lesson.Lesson, seed uint64) lesson.Lesson {
	results, err := Results(d)
	if err != nil {
		return l.Drawn(seed) // the face says so where it lists them
	}
	for i := len(results) - 1; i >= 0; i-- {
		if results[i].Lesson == l.ID && results[i].Seed != 0 {
			return l.Another(seed, results[i].Seed)
		}
	}
	return l.Drawn(seed)
}
