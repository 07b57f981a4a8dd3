//go:build !windows

package command_test

import (
	"bytes"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"sync"
	"sync/atomic"
	"testing"
	"time"

	"github.com/creack/pty"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"spotward/session"
	"spotward/session/event"
	"spotward/session/scope"
	"spotward/session/shelf"
	"spotward/views/practice"
)

// program is the real program, built once for all tests of this package.
func program(t *testing.T) string {
	t.Helper()
	builtOnce.Do(func() {
		dir, err := os.MkdirTemp("", "spotward")
		if err != nil {
			builtErr = err
			return
		}
		built = filepath.Join(dir, "spotward")
		cmd := exec.Command("go", "build", "-o", built, ".")
		cmd.Dir = root
		if out, err := cmd.CombinedOutput(); err != nil {
			builtErr = &exec.Error{Name: string(out), Err: err}
		}
	})
	require.NoError(t, builtErr)
	return built
}

var (
	builtOnce sync.Once
	built     string
	builtErr  error
)

func TestMain(m *testing.M) {
	code := m.Run()
	if built != "" {
		os.RemoveAll(filepath.Dir(built))
	}
	os.Exit(code)
}

// screen is the program on a terminal of its own.
type screen struct {
	cmd *exec.Cmd
	tty *os.File
	mu  sync.Mutex
	out bytes.Buffer
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
			s.mu.Lock()
			s.out.Write(buf[:n])
			s.mu.Unlock()
			if err != nil || s.off.Load() {
				return
			}
		}
	}()
}

func (s *screen) text() string {
	s.mu.Lock()
	defer s.mu.Unlock()
	return s.out.String()
}

func (s *screen) write(t *testing.T, keys string) {
	t.Helper()
	_, err := io.WriteString(s.tty, keys)
	require.NoError(t, err)
}

// patience is how long a test waits for what must come; it is not a measure of
// speed.
const patience = 30 * time.Second

func eventually(t *testing.T, what string, is func() bool) {
	t.Helper()
	require.Eventually(t, is, patience, 5*time.Millisecond, what)
}

// A terminal that never answers is not asked anything: not at start, and not
// for the version.
func TestStartIsSilent(t *testing.T) {
	for _, arg := range []string{"--version", "--help"} {
		s := onScreen(t, arg)
		require.NoError(t, s.cmd.Wait())
		<-s.end
		assert.NotContains(t, s.text(), "\x1b", arg)
		assert.NotEmpty(t, s.text(), arg)
	}
	s := onScreen(t, "--data", t.TempDir(), "practice", "--seed", "1")
	eventually(t, "the first question", func() bool { return strings.Contains(s.text(), "Motors off") })
	assert.NotContains(t, s.text(), "\x1b]", "no question about colours")
	assert.NotContains(t, s.text(), "\x1b[6n", "nor about the cursor")
}

// A whole alignment of the practice telescope on a terminal, by typed readings
// alone: what is seen is known by running the same telescope from its seed.
func TestWholeAlignmentOnATerminal(t *testing.T) {
	dir := t.TempDir()
	s := onScreen(t, "--data", dir, "practice", "--seed", "3")
	lib, err := shelf.Open(dir)
	require.NoError(t, err)
	var id string
	eventually(t, "a journal", func() bool {
		open, _ := lib.Unfinished(scope.Builtin().Name)
		if len(open) == 1 {
			id = open[0].ID
		}
		return id != ""
	})
	// until the first question stands there, keys go to a terminal that is not raw yet
	eventually(t, "the first question", func() bool { return strings.Contains(s.text(), "Motors off") })
	lines := 0
	for n := 0; ; n++ {
		require.Less(t, n, 150)
		var state session.State
		var bench *practice.Bench
		eventually(t, "the journal goes on", func() bool {
			ls, _, err := lib.ReadJournal(id)
			if err != nil || len(ls) <= lines {
				return false
			}
			state, bench = asOf(t, ls)
			_, due := state.Advise()
			if due {
				return false // the advice is still to be written
			}
			lines = len(ls)
			return true
		})
		if state.Over {
			break
		}
		line := ""
		if ask := state.Ask(); ask.Want == session.WantReading && ask.Told == nil {
			line = bench.World().Eyes(ask.Face).String()
		}
		s.write(t, line+"\r")
	}
	eventually(t, "the end on the screen", func() bool { return strings.Contains(s.text(), "allowed") })
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
	out, err := exec.Command(program(t), "records", "--data", dir).CombinedOutput()
	require.NoError(t, err)
	assert.Contains(t, string(out), id)
	assert.Contains(t, string(out), "aligned")
}

// asOf returns the session and the telescope as a journal has them.
func asOf(t *testing.T, lines []event.Line) (session.State, *practice.Bench) {
	t.Helper()
	events, err := session.Events(lines)
	require.NoError(t, err)
	var state session.State
	var bench *practice.Bench
	for _, ev := range events {
		next, err := session.Apply(state, ev)
		require.NoError(t, err)
		if bench == nil {
			bench, err = practice.New(next.Tel, *next.World)
			require.NoError(t, err)
		} else {
			bench.Happened(state, next, ev)
		}
		state = next
	}
	return state, bench
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
