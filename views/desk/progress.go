package desk

import (
	"fmt"
	"strings"

	"spotward/session"
)

// Progress is how far a trainee has come: of each lesson the result that
// counts, by the lesson's id. That is the newest, but one that was passed is
// not lost by trying again.
func Progress(results []session.LessonResult) map[string]session.LessonResult {
	best := map[string]session.LessonResult{}
	for _, r := range results {
		if !best[r.Lesson].Passed || r.Passed {
			best[r.Lesson] = r
		}
	}
	return best
}

// Results returns every result of the desk's trainee, oldest first: none where
// there is no name or nothing is kept.
func (d *Desk) Results() ([]session.LessonResult, error) {
	if d.Library == nil || d.Who == "" {
		return nil, nil
	}
	return d.Library.LessonsOf(d.Who)
}

// PassedWords says how a lesson stands, in a few words.
func PassedWords(r session.LessonResult) string {
	if r.Passed {
		return "passed " + r.T.Local().Format("2006-01-02")
	}
	return "not passed yet"
}

// ResultWords says a lesson's figures in a line.
func ResultWords(r session.LessonResult) string {
	var words []string
	if r.Wrong > 0 {
		words = append(words, fmt.Sprintf("not right at first: %d", r.Wrong))
	}
	if r.Readings > 0 {
		words = append(words, fmt.Sprintf("good readings: %d of %d", r.Good, r.Readings))
	}
	if r.Swapped > 0 {
		words = append(words, fmt.Sprintf("left for right: %d", r.Swapped))
	}
	if r.Looks > 0 {
		words = append(words, fmt.Sprintf("looks: %d", r.Looks))
	}
	if r.Possible > 0 {
		words = append(words, fmt.Sprintf("moves: %d, where %d would have done", r.Moves, r.Possible))
	} else if r.Moves > 0 {
		words = append(words, fmt.Sprintf("moves: %d", r.Moves))
	}
	if len(words) == 0 {
		return "Everything right the first time."
	}
	line := strings.Join(words, "; ") + "."
	return strings.ToUpper(line[:1]) + line[1:]
}
