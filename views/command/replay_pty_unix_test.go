//go:build !windows

package command_test

import (
	"bytes"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"spotward/session"
	"spotward/session/journal"
)

// keptShelf returns a data directory with the whole sessions that are kept, and
// the ids of two of them.
func keptShelf(t *testing.T) (dir string, ids []string) {
	t.Helper()
	dir = t.TempDir()
	lib := openedAt(t, dir)
	for _, name := range []string{"both-mirrors", "usual"} {
		data, err := os.ReadFile(filepath.Join(root, "testdata", "journals", "whole", fmt.Sprintf("way-%d", session.Way), name+".jsonl"))
		require.NoError(t, err)
		lines, _, err := journal.Read(filepath.Join(root, "testdata", "journals", "whole", fmt.Sprintf("way-%d", session.Way), name+".jsonl"))
		require.NoError(t, err)
		events, err := session.Events(lines)
		require.NoError(t, err)
		ids = append(ids, events[0].ID)
		require.NoError(t, os.WriteFile(filepath.Join(lib.Dir(), "journals", events[0].ID+".jsonl"), data, 0o644))
	}
	return dir, ids
}

// On a terminal a session is drawn step by step, and played where that is
// asked for; it is left as it was.
func TestReplayOnATerminal(t *testing.T) {
	dir, ids := keptShelf(t)
	s := onScreen(t, "records", "replay", ids[1], "--data", dir)
	shows := func(what string) { t.Helper(); s.shows(t, what) }
	shows("step 1 of ")
	s.write(t, "\x1b[C")
	shows("2 of ")
	of := regexp.MustCompile(`2 of (\d+)`).FindStringSubmatch(s.text())
	require.NotNil(t, of)
	steps, err := strconv.Atoi(of[1])
	require.NoError(t, err)
	s.write(t, fmt.Sprintf("%d\r", steps-6))
	shows(fmt.Sprintf("%d of ", steps-6))
	s.write(t, "play 0.2\r")
	shows("axis error after each look") // it has come to the record by itself
	s.write(t, "\x1b")
	require.NoError(t, s.cmd.Wait())
	<-s.end
	assert.Contains(t, s.text(), "\x1b[?1049l", "the screen is given back")

	s = onScreen(t, "records", "compare", ids[0], ids[1], "--data", dir)
	shows("earlier")
	s.write(t, "quit\r")
	require.NoError(t, s.cmd.Wait())
}

// Where plain words are asked for, or there is no terminal, it is told in
// sentences, and two sessions are a table.
func TestReplayInPlainWords(t *testing.T) {
	dir, ids := keptShelf(t)
	s := onScreen(t, "records", "replay", ids[1], "--plain", "--data", dir)
	s.shows(t, " steps.")
	s.write(t, "\n")
	s.shows(t, "Step 1, ")
	s.write(t, "quit\n")
	require.NoError(t, s.cmd.Wait())
	<-s.end
	assert.NotContains(t, s.text(), "\x1b")

	s = onScreen(t, "records", "compare", ids[0], ids[1], "--plain", "--data", dir)
	require.NoError(t, s.cmd.Wait())
	<-s.end
	assert.Contains(t, s.text(), "rounds of locks")
	assert.NotContains(t, s.text(), "\x1b")

	for _, args := range [][]string{{"replay", ids[0]}, {"compare", ids[0], ids[1]}} {
		cmd := exec.Command(program(t), append([]string{"records", "--data", dir}, args...)...)
		cmd.Stdin = strings.NewReader("all\n")
		out, err := cmd.CombinedOutput()
		require.NoError(t, err, "%s", out)
		assert.NotContains(t, string(out), "\x1b")
		assert.Greater(t, bytes.Count(out, []byte("\n")), 10)
	}
}

func TestReplayOfWhatIsNotThere(t *testing.T) {
	dir, ids := keptShelf(t)
	for _, args := range [][]string{{"replay", "20200101T000000Z-0000"}, {"replay", "../journal"}, {"compare", ids[0], "20200101T000000Z-0000"}} {
		s := onScreen(t, append([]string{"records", "--data", dir}, args...)...)
		require.Error(t, s.cmd.Wait(), "%v", args)
		<-s.end
		assert.Equal(t, 1, strings.Count(strings.TrimSpace(s.text()), "\n")+1, "one line: %q", s.text())
		assert.NotContains(t, s.text(), "\x1b[?1049h", "no screen for that")
	}
}
