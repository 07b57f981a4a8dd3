package teach

import (
	"fmt"
	"math"
	"strings"

	"spotward/optics"
	"spotward/session"
	"spotward/session/lesson"
	"spotward/session/words"
)

// ResultWords says a lesson's figures in a line.
func ResultWords(r lesson.Result) string {
	var words []string
	say := func(due bool, format string, args ...any) {
		if due {
			words = append(words, fmt.Sprintf(format, args...))
		}
	}
	say(r.Wrong > 0, "not right at first: %d", r.Wrong)
	say(r.Readings > 0, "good readings: %d of %d", r.Good, r.Readings)
	say(r.HoursOff > 0 || r.PartOff > 0, "off by %.0f minutes of the dial and %.0f %% of the distance", 60*r.HoursOff, 100*r.PartOff)
	say(r.Swapped > 0, "left for right: %d", r.Swapped)
	say(r.Looks > 0, "looks: %d", r.Looks)
	say(r.Possible > 0, "moves: %d, where %d would have done", r.Moves, r.Possible)
	say(r.Program > 0, "moves: %d, where the program would have told %d: %d pass", r.Moves, r.Program, lesson.MayMove(r.Program))
	say(r.Possible == 0 && r.Program == 0 && r.Moves > 0, "moves: %d", r.Moves)
	say(r.Lit > 0, "card before the laser: %d of %d", r.Carded, r.Lit)
	say(r.V >= 2 && r.Stopped, "made safe in %s", secondsWords(r.StopSec))
	say(len(r.Deeds) > 0, "what would have done harm: %d", len(r.Deeds))
	if len(words) == 0 {
		return "Everything right the first time."
	}
	return strings.ToUpper(words[0][:1]) + strings.Join(words, "; ")[1:] + "."
}

// ReadingWords says in plain words how the spots were read; nil where none was.
func ReadingWords(r lesson.Result) []string {
	if r.Readings == 0 {
		return nil
	}
	lines := []string{fmt.Sprintf("You read %d spots. Another person would have found %d of them: within half an hour and a quarter of the distance.", r.Readings, r.Good)}
	switch {
	case r.Swapped > 0:
		lines = append(lines, fmt.Sprintf("Left and right changed places %s. Say aloud where your right hand is.", times(r.Swapped)))
	case r.HoursOff > 0.5:
		lines = append(lines, "The clock was off by more than half an hour on average. Find 12 first: straight up.")
	case r.PartOff > 0.25:
		lines = append(lines, "The distances were off by more than a quarter on average. Lay the ring beside the spot, as a ruler.")
	}
	return lines
}

func times(n int) string {
	if n == 1 {
		return "once"
	}
	return fmt.Sprintf("%d times", n)
}

// secondsWords says a time to the next whole second.
func secondsWords(sec float64) string {
	if n := math.Ceil(sec); n > 1 {
		return fmt.Sprintf("%.0f seconds", n)
	}
	return "a second"
}

// Praise says what was left undone, and rightly: a move that was not made is a
// good move.
func Praise(r lesson.Result) []string {
	var lines []string
	say := func(due bool, line string) {
		if due {
			lines = append(lines, line)
		}
	}
	say(r.Lesson == lesson.Leave && r.Passed, "No screw was touched: nothing could have been done better.")
	say(r.Lesson == lesson.Swing && r.Passed, "What had let go was found, and the primary was left alone.")
	say(r.Lit > 0 && r.Carded == r.Lit, "The card was up each time before the laser, and nobody had to say so.")
	switch {
	case !r.Passed || r.Possible == 0 || !r.FewMoves():
	case r.Moves <= r.Possible:
		lines = append(lines, "Not one move more than was needed.")
	default:
		lines = append(lines, "Few moves: each that is not made leaves a screw where it was.")
	}
	return lines
}

// answerWords says what the session answers to what was said.
func answerWords(s session.State) string {
	told := s.Told()
	switch {
	case s.Ask().Stage.ID == session.StageStopping:
		return "The session answers: " + s.Ask().Say
	case told == nil:
		return ""
	}
	return "The session answers: " + words.MovesWords(told.Turns()) + "."
}

// truthWords says what a mirror brought home against a wrong spot has come to.
func (c *Class) truthWords() string {
	bench := c.work.Bench
	return fmt.Sprintf("But go to the sky end and look. %s The mirror's axis missed the middle of the field by %.1f mm before. Now it misses by %.1f mm.",
		bench.Look(optics.FacePrimary).Words, c.errMM, bench.World().Truth().ErrorMM)
}
