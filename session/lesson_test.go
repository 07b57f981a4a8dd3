package session

import (
	"os"
	"path/filepath"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestTheLadderIsWhole(t *testing.T) {
	ids := map[string]bool{}
	for i, l := range Lessons() {
		assert.False(t, ids[l.ID], "%s twice", l.ID)
		ids[l.ID] = true
		assert.NotEmpty(t, l.Title, l.ID)
		assert.NotEmpty(t, l.Aim, l.ID)
		assert.NotEmpty(t, l.Done, l.ID)
		byID, err := LessonByName(l.ID)
		require.NoError(t, err)
		byNumber, err := LessonByName(string(rune('1' + i)))
		if i < 9 {
			require.NoError(t, err)
			assert.Equal(t, byID.ID, byNumber.ID)
		}
		for _, task := range l.Tasks {
			assert.NotEmpty(t, task.Say, l.ID)
			if task.Kind == TaskQuestion {
				right := 0
				for _, o := range task.Options {
					if o.ID == task.Right {
						right++
					}
				}
				assert.Equal(t, 1, right, "%s: %s", l.ID, task.Say)
				assert.Greater(t, len(task.Options), 1)
			}
			if task.Kind == TaskWork {
				assert.NotNil(t, task.Until, l.ID)
				assert.NotNil(t, task.Met, l.ID)
				assert.NotEmpty(t, task.From, l.ID)
			}
		}
	}
	for _, name := range []string{"", "0", "99", "juggling"} {
		_, err := LessonByName(name)
		assert.ErrorContains(t, err, "a number from 1 to", name)
	}
}

func TestProgressIsKeptByName(t *testing.T) {
	l, err := OpenLibrary(t.TempDir())
	require.NoError(t, err)
	first := LessonResult{V: 1, T: time.Date(2026, 3, 1, 20, 0, 0, 0, time.UTC), Lesson: "dial", Tasks: 4, Wrong: 1, Readings: 5, Good: 4}
	second := first
	second.Passed = true
	require.NoError(t, l.AddLesson("Ann", first))
	require.NoError(t, l.AddLesson("Ann", second))
	require.NoError(t, l.AddLesson("Bo", first))
	got, err := l.LessonsOf("Ann")
	require.NoError(t, err)
	assert.Equal(t, []LessonResult{first, second}, got)
	got, err = l.LessonsOf("Nobody yet")
	require.NoError(t, err)
	assert.Empty(t, got)

	// a power cut tears the last line; the next one begins on its own
	path := filepath.Join(l.Dir(), traineesDir, "Ann", lessonsFile)
	data, err := os.ReadFile(path)
	require.NoError(t, err)
	require.NoError(t, os.WriteFile(path, data[:len(data)-9], 0o644))
	got, err = l.LessonsOf("Ann")
	require.NoError(t, err)
	assert.Equal(t, []LessonResult{first}, got)
	require.NoError(t, l.AddLesson("Ann", second))
	got, err = l.LessonsOf("Ann")
	require.NoError(t, err)
	assert.Equal(t, []LessonResult{first, second}, got)

	for _, name := range []string{"", "../Ann", "a/b", "\x1b[2J"} {
		assert.Error(t, l.AddLesson(name, first), name)
		_, err := l.LessonsOf(name)
		assert.Error(t, err, name)
	}
}

func TestSignOff(t *testing.T) {
	met := func(results ...LessonResult) []bool {
		var out []bool
		for _, c := range SignOff(results) {
			out = append(out, c.Met)
		}
		return out
	}
	dial := LessonResult{Lesson: "dial", Passed: true, Readings: 10, Good: 9}
	tests := []struct {
		name    string
		results []LessonResult
		want    []bool
	}{
		{"nothing yet", nil, []bool{false, false, false, false, false}},
		{"the dial", []LessonResult{dial}, []bool{true, false, false, false, false}},
		{"eight of ten", []LessonResult{{Lesson: "dial", Readings: 10, Good: 8}}, []bool{false, false, false, false, false}},
		{"too few readings", []LessonResult{{Lesson: "dial", Readings: 9, Good: 9}}, []bool{false, false, false, false, false}},
		{"the newest count", []LessonResult{{Lesson: "dial", Readings: 10}, dial}, []bool{true, false, false, false, false}},
		{"careful", []LessonResult{{Lesson: "safe", Passed: true, Stopped: true}}, []bool{false, true, false, false, true}},
		{"left alone", []LessonResult{{Lesson: "leave", Passed: true}}, []bool{false, false, true, false, false}},
		{"left alone once, not the last time", []LessonResult{{Lesson: "leave", Passed: true}, {Lesson: "leave"}}, []bool{false, false, false, false, false}},
		{"three moves for two", []LessonResult{{Lesson: "ring", Passed: true, Moves: 3, Possible: 2}}, []bool{false, false, false, true, false}},
		{"two moves for one", []LessonResult{{Lesson: "ring", Passed: true, Moves: 2, Possible: 1}}, []bool{false, false, false, true, false}},
		{"four moves for two", []LessonResult{{Lesson: "ring", Passed: true, Moves: 4, Possible: 2}}, []bool{false, false, false, false, false}},
		{"few moves, but not there", []LessonResult{{Lesson: "ring", Moves: 1, Possible: 2}}, []bool{false, false, false, false, false}},
	}
	for _, tt := range tests {
		assert.Equal(t, tt.want, met(tt.results...), tt.name)
	}
}
