//go:build !windows

package command_test

import (
	"io"
	"math/rand/v2"
	"os"
	"path/filepath"
	"strings"
	"syscall"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"spotward/session/shelf"
)

// said is what is typed on a screen, and what shows that it was taken.
type said struct{ typed, shows string }

// killedOnScreen has the program on a terminal answer some of the steps, types the
// one after them, kills it at some moment, and returns how many were said to be
// taken. Some are killed as they start.
func killedOnScreen(t *testing.T, dice *rand.Rand, steps []said, args ...string) (acked int) {
	t.Helper()
	s := onScreen(t, args...)
	last := dice.IntN(len(steps) + 1)
	for _, step := range steps[:last] {
		s.write(t, step.typed)
		s.shows(t, step.shows)
	}
	within := startMS
	if last > 0 && last < len(steps) {
		s.write(t, steps[last].typed)
		within = answerMS
	}
	time.Sleep(time.Duration(dice.IntN(1000*within)) * time.Microsecond)
	_ = s.cmd.Process.Signal(syscall.SIGKILL)
	_ = s.cmd.Wait()
	<-s.end
	for acked = last; acked < len(steps) && strings.Contains(s.text(), steps[acked].shows); {
		acked++
	}
	return acked
}

// On the drawn screens the next question shows that an answer was taken.
func TestKilledOnAScreen(t *testing.T) {
	alike := []said{{"", "Motors off"}, {"\r", "Laser in and"}, {"none\r", "How wide"}, {"1\r", "4:30 2r"}}
	for _, face := range [][]string{{"align", "dunlin"}, {"practice", "--seed", "2"}} {
		t.Run(face[0], func(t *testing.T) {
			dice := rand.New(rand.NewPCG(11, uint64(len(face))))
			total := 0
			for n := range timesKilled(3) {
				dir := t.TempDir()
				acked := killedOnScreen(t, dice, alike, append([]string{"--data", dir}, face...)...)
				lib, err := shelf.Open(dir)
				require.NoError(t, err)
				k := newest(t, lib)
				require.GreaterOrEqual(t, k.answers, acked-1, "kill %d: an answer that was taken is not on disk", n)
				require.LessOrEqual(t, k.answers, acked, "kill %d: more was kept than was typed", n)
				require.True(t, acked == 0 || k.id != "", "kill %d: a session that was begun is not on disk", n)
				total += acked
			}
			t.Logf("%d kills over %s: %d accepted answers, none missing", timesKilled(3), face[0], total)
			assert.Positive(t, total, "the kills must fall among answers")
		})
	}
}

// What was said in a form is in its draft, and there when the form is opened again.
func TestKilledInAForm(t *testing.T) {
	steps := []said{{"", "What is it called?"}, {"Wren\r", "2 of "}, {"8\r", "3 of "}, {"f/6\r", "4 of "}}
	drafted := []string{`"Wren"`, `"8\""`, `"1219 mm"`}
	dice := rand.New(rand.NewPCG(12, 1))
	total := 0
	for n := range timesKilled(3) {
		dir := t.TempDir()
		acked := killedOnScreen(t, dice, steps, "--data", dir, "scopes", "new")
		drafts, err := filepath.Glob(filepath.Join(dir, "drafts", "*.json"))
		require.NoError(t, err)
		var kept string
		for _, path := range drafts {
			data, err := os.ReadFile(path)
			require.NoError(t, err)
			kept += string(data)
		}
		for _, what := range drafted[:max(1, acked)-1] {
			require.Contains(t, kept, what, "kill %d: what was said is not on disk", n)
		}
		again := onScreen(t, "--data", dir, "scopes", "new")
		at := "What is it called?"
		if kept != "" {
			at = " of "
		}
		again.shows(t, at)
		require.NoError(t, again.cmd.Process.Kill())
		_ = again.cmd.Wait()
		<-again.end
		total += acked
	}
	t.Logf("%d kills in a form: %d accepted answers, none missing", timesKilled(3), total)
	assert.Positive(t, total)
}

// A lesson of which the result was said is kept, once, and those before it are as
// they were.
func TestKilledInALesson(t *testing.T) {
	dir := t.TempDir()
	lib, err := shelf.Open(dir)
	require.NoError(t, err)
	dice := rand.New(rand.NewPCG(13, 1))
	finished, before := 0, 0
	for n := range timesKilled(8) {
		p := overPipes(t, "practice", "lessons", "middle", "--plain", "--who", "Ann", "--data", dir)
		killed := killAfter(p, 3*startMS, dice)
		_, _ = io.WriteString(p.in, strings.Repeat("1\n2\n3\n4\n", 60))
		told := 0
		for p.out.Scan() {
			if line := p.out.Text(); strings.HasPrefix(line, "Passed.") || strings.HasPrefix(line, "Not passed yet.") {
				told++
				killed.Stop()
				killed = killAfter(p, 1, dice)
			}
		}
		_ = p.cmd.Wait()
		killed.Stop()
		results, err := lib.LessonsOf("Ann")
		require.NoError(t, err)
		require.GreaterOrEqual(t, len(results)-before, told, "kill %d: a result that was said is not on disk", n)
		require.LessOrEqual(t, len(results)-before, 1, "kill %d: one lesson was taken", n)
		for _, r := range results {
			require.Equal(t, "middle", r.Lesson)
			require.NotZero(t, r.Tasks)
		}
		finished, before = finished+told, len(results)
	}
	t.Logf("%d kills in lessons: %d finished, none missing", timesKilled(8), finished)
	assert.Positive(t, finished, "some must come to their end")
}

// timesKilled is how often: as -kills says, of the usual number only so many.
func timesKilled(usual int) int {
	if *kills == usualKills {
		return usual
	}
	return *kills
}
