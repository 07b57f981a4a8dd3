//go:build linux

package command_test

import (
	"strings"
	"syscall"
	"testing"
	"time"

	"github.com/stretchr/testify/require"
	"golang.org/x/sys/unix"
)

// fullMS is how long there must be no room in a terminal: what was written last
// goes on from one of the kernel's buffers to the next.
const fullMS = 100

// hold stops reading what the program draws, and fills the terminal until there is
// room for no more.
func (s *seat) hold() {
	parked := make(chan struct{})
	s.mu.Lock()
	s.parked = parked
	s.mu.Unlock()
	s.held.Lock()
	// The end is opened once more: that writing to it does not wait is for this alone.
	end, err := unix.Open(s.end.Name(), unix.O_WRONLY|unix.O_NONBLOCK|unix.O_NOCTTY, 0)
	require.NoError(s.t, err)
	defer unix.Close(end)
	room := []unix.PollFd{{Fd: int32(end), Events: unix.POLLOUT}}
	for {
		_, err := unix.Write(end, []byte(strings.Repeat(".", 512)))
		if err == nil {
			continue
		}
		require.ErrorIs(s.t, err, unix.EAGAIN) // full, or the program writes
		select {
		case <-parked: // nobody reads any more
			if n, _ := unix.Poll(room, fullMS); n == 0 {
				return
			}
		default:
		}
	}
}

// A terminal that nobody reads holds no program: it ends on the first signal,
// and gives the terminal back.
func TestASignalEndsAProgramThatNobodyReads(t *testing.T) {
	for name, sig := range map[string]syscall.Signal{
		"hangup": syscall.SIGHUP, "term": syscall.SIGTERM, "quit": syscall.SIGQUIT, "int": syscall.SIGINT,
	} {
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			s := sit(t, nil, "practice", "--seed", "3")
			s.shows(t, "a routine look")
			s.hold()
			s.types("\x0c") // the whole page again
			require.NoError(t, s.cmd.Process.Signal(sig))
			require.Equal(t, 130, s.ends())
			require.Equal(t, s.was, s.settings())
			s.held.Unlock()
			s.shows(t, "\x1b[?1049l")
			require.Contains(t, s.text(), "\x1b[?25h")
			require.True(t, strings.HasSuffix(string(s.journal()), "\n"))
		})
	}
}

// What is typed while the program starts is typed into its first page.
func TestKeysBeforeTheFirstFrameAreKept(t *testing.T) {
	for _, wait := range []time.Duration{0, 2, 5, 10, 20, 40} {
		s := sit(t, nil, "practice", "--seed", "3")
		time.Sleep(wait * time.Millisecond)
		s.types("1\r")
		s.shows(t, "Laser in and")
		s.cmd.Process.Kill()
		s.ends()
	}
}
