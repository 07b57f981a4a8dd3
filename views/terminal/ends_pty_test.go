//go:build linux

package terminal

import (
	"strings"
	"syscall"
	"testing"
	"time"

	"github.com/stretchr/testify/require"
)

// hold stops reading what the program draws.
func (s *seat) hold() { s.held.Lock() }

// A terminal that nobody reads holds no program: it ends on the first signal,
// and gives the terminal back.
func TestASignalEndsAProgramThatNobodyReads(t *testing.T) {
	for name, sig := range map[string]syscall.Signal{
		"hangup": syscall.SIGHUP, "term": syscall.SIGTERM, "quit": syscall.SIGQUIT, "int": syscall.SIGINT,
	} {
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			s := sit(t, nil, "practice", "--seed", "3")
			before := s.settings()
			s.untilSaid("a routine look")
			s.hold()
			for range 40 { // each draws the whole page again, until there is room for no more
				s.types("\x0c")
				time.Sleep(5 * time.Millisecond)
			}
			require.NoError(t, s.cmd.Process.Signal(sig))
			require.Equal(t, 130, s.ends())
			require.Equal(t, before, s.settings())
			s.held.Unlock()
			s.untilSaid("\x1b[?1049l")
			require.Contains(t, s.said(), "\x1b[?25h")
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
		s.untilSaid("Laser in and")
		s.cmd.Process.Kill()
		s.ends()
	}
}
