//go:build !windows

package command_test

import (
	"bytes"
	"io"
	"os"
	"os/exec"
	"sync/atomic"
	"testing"

	"github.com/creack/pty"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"spotward/session"
	"spotward/session/event"
	"spotward/session/scope"
	"spotward/session/shelf"
	"spotward/views/practice"
)

// screen is the program on a terminal of its own.
type screen struct {
	heard
	cmd *exec.Cmd
	tty *os.File
	end chan struct{} // closed when nobody reads any more
	off atomic.Bool   // nobody is to read any more
}

func onScreen(t *testing.T, args ...string) *screen {
	t.Helper()
	s := &screen{cmd: exec.Command(program(t), args...)}
	s.cmd.Env = append(os.Environ(), "TERM=xterm-256color", "LANG=C.UTF-8", "NO_COLOR=", "ACCESSIBLE=")
	tty, err := pty.StartWithSize(s.cmd, &pty.Winsize{Rows: 24, Cols: 80})
	require.NoError(t, err)
	s.tty = tty
	s.listen()
	t.Cleanup(func() {
		s.cmd.Process.Kill()
		tty.Close()
	})
	return s
}

// listen takes what the program draws, until it ends or nobody is to read.
func (s *screen) listen() {
	end := make(chan struct{})
	s.end = end
	s.off.Store(false)
	go func() {
		defer close(end)
		buf := make([]byte, 4096)
		for {
			n, err := s.tty.Read(buf)
			s.take(buf[:n])
			if err != nil || s.off.Load() {
				return
			}
		}
	}()
}

func (s *screen) write(t *testing.T, keys string) {
	t.Helper()
	_, err := io.WriteString(s.tty, keys)
	require.NoError(t, err)
}

// A whole alignment of the practice telescope on a terminal, by typed readings
// alone: what is seen is known by running the same telescope from its seed.
func TestWholeAlignmentOnATerminal(t *testing.T) {
	dir := t.TempDir()
	s := onScreen(t, "--data", dir, "practice", "--seed", "3")
	lib, err := shelf.Open(dir)
	require.NoError(t, err)
	var id string
	s.until(t, "a journal", func() bool {
		open, _ := lib.Unfinished(scope.Builtin().Name)
		if len(open) == 1 {
			id = open[0].ID
		}
		return id != ""
	})
	// until the first question stands there, keys go to a terminal that is not raw yet
	s.shows(t, "Motors off")
	var now asKept
	for n := 0; ; n++ {
		require.Less(t, n, 150)
		before := now.events
		s.until(t, "the journal goes on", func() bool {
			lines, _, err := lib.ReadJournal(id)
			if err != nil || len(lines) <= max(before, now.events) {
				return false
			}
			now.take(t, lines)
			_, due := now.state.Advise()
			return !due // else the advice is still to be written
		})
		state, bench := now.state, now.bench
		if state.Over {
			break
		}
		line := ""
		if ask := state.Ask(); ask.Want == session.WantReading && ask.Told == nil {
			line = bench.World().Eyes(ask.Face).String()
		}
		s.write(t, line+"\r")
	}
	s.shows(t, "allowed")
	s.write(t, "quit\r")
	require.NoError(t, s.cmd.Wait(), "exit code 0")
	<-s.end
	assert.Contains(t, s.text(), "\x1b[?1049l", "the screen is given back")
	assert.Contains(t, s.text(), "\x1b[?25h", "and the cursor")
	records, errs := lib.Records()
	require.Empty(t, errs)
	require.Len(t, records, 1)
	assert.Equal(t, session.OutcomeAligned, records[0].Outcome)
	assert.True(t, records[0].Left.Claimed)
	assert.True(t, records[0].Practice)
	assert.Equal(t, []int{now.state.Looks, now.state.Moves}, []int{records[0].Looks, records[0].Moves})
	assert.Contains(t, s.text(), records[0].ID)
	out, err := exec.Command(program(t), "records", "--data", dir).CombinedOutput()
	require.NoError(t, err)
	assert.Contains(t, string(out), id)
	assert.Contains(t, string(out), "aligned")
}

// asKept is a session and its telescope as a journal has them.
type asKept struct {
	events int
	state  session.State
	bench  *practice.Bench
}

// take goes on by what the journal has that was not there before.
func (k *asKept) take(t *testing.T, lines []event.Line) {
	t.Helper()
	events, err := session.Events(lines)
	require.NoError(t, err)
	for _, ev := range events[k.events:] {
		next, err := session.Apply(k.state, ev)
		require.NoError(t, err)
		if k.bench == nil {
			k.bench, err = practice.New(next.Tel, *next.World)
			require.NoError(t, err)
		} else {
			k.bench.Happened(k.state, next, ev)
		}
		k.state = next
	}
	k.events = len(events)
}

func TestNoTerminal(t *testing.T) {
	for _, args := range [][]string{{}, {"align"}, {"check"}, {"practice"}} {
		cmd := exec.Command(program(t), append(args, "--data", t.TempDir())...)
		cmd.Env = append(os.Environ(), "TERM=xterm", "ACCESSIBLE=")
		var errOut bytes.Buffer
		cmd.Stderr = &errOut
		err := cmd.Run()
		var exit *exec.ExitError
		require.ErrorAs(t, err, &exit)
		assert.Equal(t, 2, exit.ExitCode(), args)
		assert.Equal(t, 1, bytes.Count(errOut.Bytes(), []byte("\n")), "one line: %s", errOut.String())
		assert.Contains(t, errOut.String(), "talk")
		assert.Contains(t, errOut.String(), "feed")
	}
}
