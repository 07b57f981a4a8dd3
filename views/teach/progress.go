package teach

import (
	"errors"
	"fmt"
	"time"

	"spotward/session/lesson"
	"spotward/session/words"
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

// Sign keeps that an instructor signs the desk's trainee off; days is how long
// that holds, 0 for good.
func Sign(d *desk.Desk, by string, days int) (lesson.Signed, error) {
	results, err := Results(d)
	if err != nil {
		return lesson.Signed{}, err
	}
	if d.Library == nil || d.Who == "" {
		return lesson.Signed{}, errors.New("nobody to sign off: say the trainee's name first, as in name Ann")
	}
	s, err := lesson.Sign(d.Who, by, results, d.Now(), days)
	if err != nil {
		return s, err
	}
	return s, d.Library.AddSigned(d.Who, s)
}

// Signed returns the sign-offs of the desk's trainee, oldest first.
func Signed(d *desk.Desk) ([]lesson.Signed, error) {
	if d.Library == nil || d.Who == "" {
		return nil, nil
	}
	return d.Library.SignedOf(d.Who)
}

// SignedWords says a sign-off in a line.
func SignedWords(s lesson.Signed, now time.Time) string {
	const layout = "2006-01-02"
	by := s.By
	if by == "" {
		by = "somebody who was forgotten"
	}
	text := fmt.Sprintf("Signed off by %s on %s", words.OneLine(by), s.T.Local().Format(layout))
	switch {
	case s.Until.IsZero():
		return text + "."
	case s.Holds(now):
		return text + ", until " + s.Until.Local().Format(layout) + "."
	}
	return text + ": it ran out on " + s.Until.Local().Format(layout) + "."
}
