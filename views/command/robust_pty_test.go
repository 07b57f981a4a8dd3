//go:build !windows

package command_test

import (
	"math/rand/v2"
	"strings"
	"testing"
	"time"

	"github.com/creack/pty"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"spotward/session/sessiontest"
)

// quietFor is how long nothing must come for the screen to be taken as drawn:
// many frames of the program's.
const quietFor = 150 * time.Millisecond

// drawn waits until the screen stands still, and returns how many bytes have
// come so far.
func (s *screen) drawn(t *testing.T) int {
	t.Helper()
	had := -1
	eventuallyEvery(t, quietFor, "the screen stands still", func() bool {
		now := len(s.text())
		still := now == had
		had = now
		return still
	})
	return had
}

func eventuallyEvery(t *testing.T, every time.Duration, what string, is func() bool) {
	t.Helper()
	require.Eventually(t, is, patience, every, what)
}

// toFirstReading plays on to the first question for a place.
func (s *screen) toFirstReading(t *testing.T) {
	t.Helper()
	for _, step := range []struct{ shows, typed string }{
		{"Motors off", "1\r"}, {"Laser in and", "none\r"}, {"wide", "1\r"}, {"4:30 2r", ""},
	} {
		s.shows(t, step.shows)
		s.write(t, step.typed)
	}
}

// A line that is lost ends the program, and the journal is whole.
func TestLostLine(t *testing.T) {
	dir := t.TempDir()
	s := onScreen(t, "--data", dir, "practice", "--seed", "2")
	s.toFirstReading(t)
	s.off.Store(true)
	s.write(t, "4") // what is drawn for it lets go of the terminal
	<-s.end
	require.NoError(t, s.tty.Close())
	gone := make(chan error, 1)
	go func() { gone <- s.cmd.Wait() }()
	select {
	case <-gone:
	case <-time.After(patience):
		t.Fatal("the program stays when its terminal is gone")
	}
	assert.Equal(t, 3, newest(t, openedAt(t, dir)).answers)
}

// Whatever the window does, the program lives and draws for the size it has in
// the end.
func TestResizeStorm(t *testing.T) {
	s := onScreen(t, "--data", t.TempDir(), "practice", "--seed", "2")
	s.toFirstReading(t)
	dice := rand.New(rand.NewPCG(5, 5))
	for range sessiontest.Of(0, 150, 400) {
		size := &pty.Winsize{Rows: uint16(dice.IntN(70)), Cols: uint16(dice.IntN(220))}
		require.NoError(t, pty.Setsize(s.tty, size))
		if dice.IntN(4) == 0 {
			s.write(t, "4 1\x15")
		}
	}
	require.NoError(t, pty.Setsize(s.tty, &pty.Winsize{Rows: 24, Cols: 80}))
	from := s.drawn(t)
	s.write(t, "\x0c") // draw it all again
	s.until(t, "the question again", func() bool { return strings.Contains(s.text()[from:], "for example") })
	s.write(t, "quit\r")
	_ = s.cmd.Wait()
	<-s.end
	assert.Contains(t, s.text()[from:], "\x1b[?1049l")
	assert.Equal(t, 1, s.cmd.ProcessState.ExitCode())
}
