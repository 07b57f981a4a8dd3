package shelf

import (
	"os"
	"path/filepath"
	"strconv"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"spotward/session/lesson"
)

func TestTheLadderIsWhole(t *testing.T) {
	ids := map[string]bool{}
	for i, l := range lesson.All() {
		assert.False(t, ids[l.ID], "%s twice", l.ID)
		ids[l.ID] = true
		assert.NotEmpty(t, l.Title, l.ID)
		assert.NotEmpty(t, l.Aim, l.ID)
		assert.NotEmpty(t, l.Done, l.ID)
		byID, err := lesson.ByName(l.ID)
		require.NoError(t, err)
		byNumber, err := lesson.ByName(strconv.Itoa(i))
		require.NoError(t, err)
		assert.Equal(t, byID.ID, byNumber.ID)
		for _, task := range l.Tasks {
			assert.NotEmpty(t, task.Say, l.ID)
			if task.Kind == lesson.TaskQuestion {
				right := 0
				for _, o := range task.Options {
					if o.ID == task.Right {
						right++
					}
				}
				assert.Equal(t, 1, right, "%s: %s", l.ID, task.Say)
				assert.Len(t, task.Wrong, len(task.Options)-1, "%s: each wrong answer is told why: %s", l.ID, task.Say)
				assert.Greater(t, len(task.Options), 1)
			}
			if task.Kind == lesson.TaskDeed {
				assert.NotEmpty(t, task.Ends, l.ID)
				assert.NotNil(t, task.World, l.ID)
			}
			if task.Tests != nil {
				assert.NotEmpty(t, task.Face, l.ID)
			}
			if task.Kind == lesson.TaskWork {
				assert.NotNil(t, task.Until, l.ID)
				assert.NotNil(t, task.Met, l.ID)
				assert.NotEmpty(t, task.From, l.ID)
			}
		}
	}
	for _, name := range []string{"", "18", "99", "juggling"} {
		_, err := lesson.ByName(name)
		assert.ErrorContains(t, err, "a number from 0 to", name)
	}
}

func TestProgressIsKeptByName(t *testing.T) {
	l, err := Open(t.TempDir())
	require.NoError(t, err)
	first := lesson.Result{V: 1, T: time.Date(2026, 3, 1, 20, 0, 0, 0, time.UTC), Lesson: "dial", Tasks: 4, Wrong: 1, Readings: 5, Good: 4}
	second := first
	second.Passed = true
	require.NoError(t, l.AddLesson("Ann", first))
	require.NoError(t, l.AddLesson("Ann", second))
	require.NoError(t, l.AddLesson("Bo", first))
	got, err := l.LessonsOf("Ann")
	require.NoError(t, err)
	assert.Equal(t, []lesson.Result{first, second}, got)
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
	assert.Equal(t, []lesson.Result{first}, got)
	require.NoError(t, l.AddLesson("Ann", second))
	got, err = l.LessonsOf("Ann")
	require.NoError(t, err)
	assert.Equal(t, []lesson.Result{first, second}, got)

	old := `{"v":1,"t":"2026-01-01T20:00:00Z","lesson":"safe","passed":true,"tasks":6,"wrong":0,"stopped":true,"later":7}` + "\n"
	require.NoError(t, os.WriteFile(path, []byte(old), 0o644))
	got, err = l.LessonsOf("Ann")
	require.NoError(t, err)
	require.Len(t, got, 1)
	assert.True(t, got[0].Passed && got[0].Stopped)

	for _, name := range []string{"", "../Ann", "a/b", "\x1b[2J"} {
		assert.Error(t, l.AddLesson(name, first), name)
		_, err := l.LessonsOf(name)
		assert.Error(t, err, name)
	}
}

func TestTrainees(t *testing.T) {
	l, err := Open(t.TempDir())
	require.NoError(t, err)
	names, err := l.Trainees()
	require.NoError(t, err)
	require.Empty(t, names)
	for _, name := range []string{"Ida", "Ann", "Ida"} {
		require.NoError(t, l.AddLesson(name, lesson.NewResult(lesson.All()[0])))
	}
	for _, stray := range []string{"Empty", "a\x1b[2J"} {
		require.NoError(t, os.MkdirAll(filepath.Join(l.Dir(), traineesDir, stray), 0o755))
	}
	require.NoError(t, os.WriteFile(filepath.Join(l.Dir(), traineesDir, "a\x1b[2J", lessonsFile), nil, 0o644))
	names, err = l.Trainees()
	require.NoError(t, err)
	require.Equal(t, []string{"Ann", "Ida"}, names)
}
