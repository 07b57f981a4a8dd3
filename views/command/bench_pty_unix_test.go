//go:build !windows

package command_test

import (
	"os/exec"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"spotward/session"
	"spotward/session/scope"
)

// An instructor sets up a fault, hands it over, and the trainee makes it safe.
func TestBenchOnATerminal(t *testing.T) {
	dir := t.TempDir()
	s := onScreen(t, "practice", "bench", "--seed", "5", "--who", "Ann", "--data", dir)
	shows := func(what string) { t.Helper(); s.shows(t, what) }
	shows("hand over")
	s.write(t, "stuck primary B\r")
	shows("* primary B")
	s.write(t, "hand over\r")
	shows("Motors off")
	lib := openedAt(t, dir)
	open, errs := lib.Unfinished(scope.Builtin().Name)
	require.Empty(t, errs)
	require.Len(t, open, 1)
	s.write(t, "truth\r")
	shows("True axis error")
	s.write(t, "\r") // the figures behind the picture
	shows("the session knows")
	s.write(t, "\x1b")
	s.until(t, "the question again", func() bool { return strings.Count(s.text(), "a routine look") > 2 })
	s.write(t, "stop safely\r")
	shows("level, secondary snug")
	s.write(t, "\r")
	shows("made safe, unfinished")
	s.write(t, "quit\r") // the record, then the bench
	s.until(t, "the bench again", func() bool { return strings.Count(s.text(), "a screw does not turn at all") > 1 })
	s.write(t, "quit\r")
	var exit *exec.ExitError
	require.ErrorAs(t, s.cmd.Wait(), &exit)
	assert.Equal(t, 1, exit.ExitCode(), "an alignment that is not finished")
	<-s.end
	assert.Contains(t, s.text(), "\x1b[?1049l", "the screen is given back")

	records, errs := lib.Records()
	require.Empty(t, errs)
	require.Len(t, records, 1)
	assert.Equal(t, session.OutcomeStopped, records[0].Outcome)
	assert.True(t, records[0].Practice)
	lines, _, err := lib.ReadJournal(open[0].ID)
	require.NoError(t, err)
	var now asKept
	now.take(t, lines)
	assert.Equal(t, "bench:easy,stuck=primary.B", now.state.World.Level)
	assert.Equal(t, "Ann", now.state.Who)
}
