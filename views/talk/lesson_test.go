package talk_test

import (
	"bytes"
	"fmt"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"spotward/session"
	"spotward/session/lesson"
	"spotward/session/sessiontest"
	"spotward/views/desk"
	"spotward/views/talk"
	"spotward/views/teach"
	"spotward/views/teach/teachtest"
)

func take(t *testing.T, d *desk.Desk, l lesson.Lesson, answer func(*teach.Class) string) (*teach.Class, string) {
	t.Helper()
	c, err := teach.Begin(d, l)
	require.NoError(t, err)
	var b bytes.Buffer
	require.NoError(t, talk.Lesson(c, &pupil{class: c, answer: answer, said: &b}, &b))
	require.True(t, c.Over(), b.String())
	return c, b.String()
}

// course has a trainee take every lesson, and returns what came of each, by its
// id, and all the summaries.
func course(t *testing.T, d *desk.Desk, answer func(*teach.Class) string) (map[string]lesson.Result, string) {
	t.Helper()
	results := map[string]lesson.Result{}
	var summaries strings.Builder
	for _, l := range lesson.All() {
		c, said := take(t, d, l, answer)
		assert.NotContains(t, said, "%!", l.ID)
		r := c.Result()
		results[l.ID] = r
		if !whole(l) {
			assert.LessOrEqual(t, strings.Count(said, "\n> "), 45, "%s is more than five minutes", l.ID)
			at := max(strings.LastIndex(said, "\nPassed."), strings.LastIndex(said, "\nNot passed yet."))
			fmt.Fprintf(&summaries, "%s:%s\n", l.Title, said[at:])
		}
	}
	kept, err := d.Library.LessonsOf(d.Who)
	require.NoError(t, err)
	require.Len(t, kept, len(lesson.All()))
	for _, c := range lesson.SignOff(kept) {
		fmt.Fprintf(&summaries, "%t: %s\n", c.Met, c.Words)
	}
	return results, summaries.String()
}

// whole reports whether a lesson is a whole alignment: its figures hang on
// every eyelash of the adviser.
func whole(l lesson.Lesson) bool { return l.Tasks[0].From == session.StageReady || l.ID == lesson.Exam }

func TestLessonsOfAGoodTrainee(t *testing.T) {
	sessiontest.Whole(t)
	d := &desk.Desk{Library: library(t), Who: "Ann", Now: ticking()}
	results, summaries := course(t, d, teachtest.Good())
	for id, r := range results {
		assert.True(t, r.Passed, id)
		assert.Zero(t, r.Wrong, id)
		assert.Equal(t, r.Readings, r.Good, id)
		assert.Empty(t, r.Deeds, id)
	}
	golden(t, "ladder-good", summaries)
	_, said := take(t, d, lessonByID(t, "whole"), teachtest.Good())
	assert.Contains(t, said, "The telescope's true axis error is ")
	assert.NotContains(t, summaries, "false: ")
	records, errs := d.Library.Records()
	assert.Empty(t, errs)
	assert.Empty(t, records, "lessons are no records of scopes")
	open, _ := d.Library.Unfinished("")
	assert.Empty(t, open)
	_, said = take(t, d, lessonByID(t, "middle"), teachtest.Good())
	golden(t, "lesson", said)
}

func TestLessonsOfAClumsyTrainee(t *testing.T) {
	sessiontest.Whole(t)
	d := &desk.Desk{Library: library(t), Who: "Bo", Now: ticking()}
	results, summaries := course(t, d, teachtest.Clumsy())
	for id, passes := range map[string]bool{
		"safe": false, "dot": false, "dial": true, "leave": true, "way": true, "ring": true, "middle": false, "rough": true,
		"hole": true, "locks": true, "wrong": false, "lies": false, "swing": true, "first": false,
	} {
		assert.Equal(t, passes, results[id].Passed, "%s: a slip in reading may be made good, one in what is safe may not", id)
	}
	assert.Equal(t, 4, results["dial"].Wrong)
	assert.Equal(t, 8, results["dial"].Readings)
	assert.Equal(t, 4, results["dial"].Good)
	assert.Equal(t, 4, results["dial"].Swapped)
	assert.Equal(t, 1, results["wrong"].Wrong, "what one screw did was not said")
	golden(t, "ladder-clumsy", summaries)
}

func TestLessonsOfOneWhoDoesEverythingWrong(t *testing.T) {
	sessiontest.Whole(t)
	d := &desk.Desk{Library: library(t), Who: "Cy", Now: ticking()}
	results, summaries := course(t, d, teachtest.Wrong())
	for id, r := range results {
		assert.False(t, r.Passed, id)
	}
	for _, line := range []string{
		"Card before the laser: 0 of 1", "card before the laser: 0 of 6", "Good readings: 0 of 8",
		"For next time: the laser was switched on before the card was up.",
		"For next time: a screw was tightened against a taut centre bolt: none had been eased.",
		"For next time: a lock was turned past its end.",
		"For next time: the beam left by the open end and no card was over it.",
	} {
		assert.Contains(t, strings.ToLower(summaries), strings.ToLower(line))
	}
	assert.NotContains(t, summaries, "Passed.")
	kept, err := d.Library.LessonsOf("Cy")
	require.NoError(t, err)
	for _, s := range lesson.SignOff(kept) {
		assert.Equal(t, strings.HasPrefix(s.Words, "made safe"), s.Met, s.Words)
	}
}

func lessonByID(t *testing.T, id string) lesson.Lesson {
	t.Helper()
	l, err := lesson.ByName(id)
	require.NoError(t, err)
	return l
}

// ticking returns a clock on which every look at it takes ten seconds.
func ticking() func() time.Time {
	now := time.Date(2026, 3, 1, 20, 0, 0, 0, time.UTC)
	return func() time.Time {
		now = now.Add(10 * time.Second)
		return now
	}
}

func TestAStopThatTakesTooLongIsNotSignedOff(t *testing.T) {
	now := time.Date(2026, 3, 1, 20, 0, 0, 0, time.UTC)
	for _, tt := range []struct {
		took time.Duration
		met  bool
	}{{2 * time.Minute, true}, {121 * time.Second, false}} {
		d := &desk.Desk{Library: library(t), Who: "Ed", Now: func() time.Time { return now }}
		answer := teachtest.Good()
		c, _ := take(t, d, lessonByID(t, "safe"), func(c *teach.Class) string {
			line := answer(c)
			if w := c.Work(); w != nil && w.State().Ask().Step == session.StepSafe && line == "yes" {
				now = now.Add(tt.took)
			}
			return line
		})
		assert.True(t, c.Result().Passed, "slow is no fault of its own")
		assert.InDelta(t, tt.took.Seconds(), c.Result().StopSec, 1e-9)
		signed := lesson.SignOff([]lesson.Result{c.Result()})
		assert.Equal(t, tt.met, signed[len(signed)-2].Met, "the last but one: the exam is the last")
	}
}

func TestALessonThatIsLeftIsNotKept(t *testing.T) {
	d := &desk.Desk{Library: library(t), Who: "Di", Now: time.Now}
	for _, typed := range []string{"", "quit\n", "nonsense\nsee\nhelp\n"} {
		c, err := teach.Begin(d, lesson.All()[0])
		require.NoError(t, err)
		var b bytes.Buffer
		require.NoError(t, talk.Lesson(c, strings.NewReader(typed), &b))
		assert.Contains(t, b.String(), "The lesson was left.")
	}
	results, err := d.Library.LessonsOf("Di")
	require.NoError(t, err)
	assert.Empty(t, results)
}

func TestLessonsFromTheFront(t *testing.T) {
	d := &desk.Desk{Library: library(t), Who: "Flo", Now: time.Now, Seeds: func() uint64 { return 5 }}
	typed := "2\n99\n8\n"
	for _, task := range lessonByID(t, "middle").Drawn(5).Tasks {
		typed += task.Right + "\n"
	}
	var b bytes.Buffer
	w, err := talk.Front(d, strings.NewReader(typed+"quit\n"), &b)
	require.NoError(t, err)
	assert.Nil(t, w)
	first, again, found := strings.Cut(b.String(), "Passed.")
	require.True(t, found, b.String())
	assert.Contains(t, first, "8: middle or just inside.")
	assert.Contains(t, again, "8: middle or just inside, passed ")
	results, err := teach.Results(d)
	require.NoError(t, err)
	require.Len(t, results, 1)
	assert.Equal(t, "middle", results[0].Lesson)
}
