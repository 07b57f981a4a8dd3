//go:build !windows

package command_test

import (
	"math/rand/v2"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/creack/pty"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
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
		{"Why are we", "1\r"}, {"Laser home", "\r"}, {"How wide", "1\r"}, {"is the spot", ""},
	} {
		s.shows(t, step.shows)
		s.write(t, step.typed)
	}
}

// baudBytes is how many bytes a second a line of 9600 baud brings: ten bits each.
const baudBytes = 960

// At 9600 baud a reading in the loop of look and turn is typed, taken and drawn
// within two seconds: so many bytes, colours, braille and all, and what is drawn
// while it is typed.
func TestReadingOnASlowLine(t *testing.T) {
	heron, err := filepath.Abs(root + "/testdata/scopes/heron.toml")
	require.NoError(t, err)
	s := onScreen(t, "--data", t.TempDir(), "align", heron)
	s.toFirstReading(t)
	for _, step := range []struct{ typed, shows string }{
		{"4:30 25\r", "Go behind"}, {"gone\r", "both mirrors"}, {"3\r", "tethered"},
	} {
		s.write(t, step.typed)
		s.shows(t, step.shows)
	}
	readings := []string{"4:30 20", "4 17", "4 14"}
	before := s.drawn(t)
	for _, reading := range readings {
		s.write(t, reading+"\r")
		s.drawn(t)
	}
	each := (s.drawn(t) - before) / len(readings)
	t.Logf("%d bytes a reading: %.1f s at 9600 baud", each, float64(each)/baudBytes)
	assert.Less(t, each, 2*baudBytes)
	assert.Greater(t, each, 100, "the readings were not drawn: nothing would be shown by this")
}

// What a line that stands still cannot take is not kept for it: once it goes on
// it is sent the screen as it is by then, not all that was drawn meanwhile.
func TestNoPileUpOnASlowLine(t *testing.T) {
	dir := t.TempDir()
	s := onScreen(t, "--data", dir, "practice", "--seed", "2")
	s.toFirstReading(t)
	s.drawn(t)
	s.write(t, "4 12\r")
	s.drawn(t)
	s.write(t, "u\r")
	live := s.drawn(t)
	s.write(t, "4 12\r")
	s.drawn(t)
	s.write(t, "u\r")
	live = s.drawn(t) - live // a reading and its undoing, drawn as they come

	s.off.Store(true)
	s.write(t, "4\x15") // what is drawn for it lets go of the terminal
	<-s.end
	const times = 60
	for range times {
		s.write(t, "4 12\ru\r")
	}
	from := len(s.text())
	s.listen()
	eventually(t, "all taken", func() bool { return newest(t, openedAt(t, dir)).answers == 3+2+times })
	sent := s.drawn(t) - from
	t.Logf("%d bytes for %d readings; drawn as they come it is %d each", sent, times, live)
	assert.Less(t, sent, times*live/3)
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
	for range 400 {
		size := &pty.Winsize{Rows: uint16(dice.IntN(70)), Cols: uint16(dice.IntN(220))}
		require.NoError(t, pty.Setsize(s.tty, size))
		if dice.IntN(4) == 0 {
			s.write(t, "4 1\x15")
		}
	}
	require.NoError(t, pty.Setsize(s.tty, &pty.Winsize{Rows: 24, Cols: 80}))
	from := s.drawn(t)
	s.write(t, "\x0c") // draw it all again
	eventually(t, "the question again", func() bool { return strings.Contains(s.text()[from:], "is the spot") })
	s.write(t, "quit\r")
	_ = s.cmd.Wait()
	<-s.end
	assert.Contains(t, s.text()[from:], "\x1b[?1049l")
	assert.Equal(t, 1, s.cmd.ProcessState.ExitCode())
}
