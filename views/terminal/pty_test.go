//go:build linux

package terminal

import (
	"bytes"
	"errors"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"sync"
	"syscall"
	"testing"
	"time"

	"github.com/creack/pty"
	"github.com/stretchr/testify/require"
	"golang.org/x/sys/unix"

	"spotward/session/shelf"
	"spotward/views/terminal/align"
)

// program builds the real program once; TestMain takes it away again.
var program = sync.OnceValues(func() (string, error) {
	path := filepath.Join(os.TempDir(), fmt.Sprintf("spotward-%d", os.Getpid()))
	if out, err := exec.Command("go", "build", "-o", path, "spotward").CombinedOutput(); err != nil {
		return "", fmt.Errorf("%w: %s", err, out)
	}
	return path, nil
})

func TestMain(m *testing.M) {
	code := m.Run()
	os.Remove(filepath.Join(os.TempDir(), fmt.Sprintf("spotward-%d", os.Getpid())))
	kept.remove()
	shed.remove()
	os.Exit(code)
}

// seat is the real program in a terminal that never answers a question.
type seat struct {
	t    *testing.T
	cmd  *exec.Cmd
	tty  *os.File // our end
	end  *os.File // the program's end, kept open to look at its settings
	data string
	held sync.Mutex // while it is locked nobody reads
	mu   sync.Mutex
	out  bytes.Buffer
}

func sit(t *testing.T, env []string, args ...string) *seat {
	path, err := program()
	require.NoError(t, err)
	data := t.TempDir()
	return seated(t, data, env, path, append(args, "--data", data)...)
}

// seated starts any program as the leader of a terminal's session.
func seated(t *testing.T, data string, env []string, path string, args ...string) *seat {
	s := &seat{t: t, data: data, cmd: exec.Command(path, args...)}
	s.cmd.Env = append([]string{"PATH=" + os.Getenv("PATH"), "HOME=" + data, "TERM=xterm-256color", "LANG=C.UTF-8"}, env...)
	var err error
	s.tty, s.end, err = pty.Open()
	require.NoError(t, err)
	require.NoError(t, pty.Setsize(s.tty, &pty.Winsize{Rows: 24, Cols: 80}))
	s.cmd.Stdin, s.cmd.Stdout, s.cmd.Stderr = s.end, s.end, s.end
	s.cmd.SysProcAttr = &syscall.SysProcAttr{Setsid: true, Setctty: true}
	require.NoError(t, s.cmd.Start())
	go s.listen()
	t.Cleanup(func() {
		s.cmd.Process.Kill()
		s.end.Close()
		s.tty.Close()
	})
	return s
}

// wait returns once nobody holds the reading back.
func (s *seat) wait() {
	s.held.Lock()
	defer s.held.Unlock()
}

func (s *seat) listen() {
	buf := make([]byte, 4096)
	for {
		s.wait()
		n, err := s.tty.Read(buf)
		s.mu.Lock()
		s.out.Write(buf[:n])
		s.mu.Unlock()
		if err != nil {
			return
		}
	}
}

func (s *seat) said() string {
	s.mu.Lock()
	defer s.mu.Unlock()
	return s.out.String()
}

func (s *seat) types(text string) {
	_, err := s.tty.WriteString(text)
	require.NoError(s.t, err)
}

// until waits for something to come true; the patience is for a busy machine.
func (s *seat) until(what string, ok func() bool) {
	s.t.Helper()
	for range 1500 {
		if ok() {
			return
		}
		time.Sleep(10 * time.Millisecond)
	}
	s.t.Fatalf("never: %s; said %q", what, tail(s.said()))
}

func tail(text string) string { return text[max(0, len(text)-1500):] }

func (s *seat) untilSaid(text string) {
	s.t.Helper()
	s.until(text, func() bool { return strings.Contains(s.said(), text) })
}

// ends waits for the program's end and returns its exit code.
func (s *seat) ends() int {
	err := s.cmd.Wait()
	var exit *exec.ExitError
	if err != nil && !errors.As(err, &exit) {
		require.NoError(s.t, err)
	}
	return s.cmd.ProcessState.ExitCode()
}

func (s *seat) settings() unix.Termios {
	t, err := unix.IoctlGetTermios(int(s.end.Fd()), unix.TCGETS)
	require.NoError(s.t, err)
	return *t
}

func (s *seat) journal() []byte {
	files, _ := filepath.Glob(filepath.Join(s.data, "journals", "*.jsonl"))
	if len(files) == 0 {
		return nil
	}
	data, err := os.ReadFile(files[0])
	require.NoError(s.t, err)
	return data
}

func TestVersionAsksTheTerminalNothing(t *testing.T) {
	for _, arg := range []string{"--version", "--help"} {
		s := sit(t, nil, arg)
		require.Equal(t, 0, s.ends())
		s.untilSaid("spotward")
		require.NotContains(t, s.said(), "\x1b", arg)
	}
}

func TestStartAsksTheTerminalNothing(t *testing.T) {
	s := sit(t, nil)
	s.untilSaid("Dunlin")
	require.NotContains(t, s.said(), "\x1b]") // the colour of its ground
	require.NotContains(t, s.said(), "\x1b[6n")
	require.NotContains(t, s.said(), "\x1b[c")
}

func TestTerminalIsLeftAsItWas(t *testing.T) {
	for name, leave := range map[string]struct {
		do   func(s *seat)
		exit int
	}{
		"quit":    {func(s *seat) { s.types("quit\r") }, 0},
		"escape":  {func(s *seat) { s.types("\x1b") }, 0},
		"ctrl-c":  {func(s *seat) { s.types("\x03") }, 130},
		"hangup":  {func(s *seat) { s.cmd.Process.Signal(syscall.SIGHUP) }, 130},
		"quit it": {func(s *seat) { s.cmd.Process.Signal(syscall.SIGQUIT) }, 130},
		"term":    {func(s *seat) { s.cmd.Process.Signal(syscall.SIGTERM) }, 130},
		"int":     {func(s *seat) { s.cmd.Process.Signal(syscall.SIGINT) }, 130},
	} {
		t.Run(name, func(t *testing.T) {
			s := sit(t, nil)
			before := s.settings()
			s.untilSaid("Dunlin")
			require.NotEqual(t, before, s.settings(), "not in raw mode: nothing would be shown by this")
			leave.do(s)
			require.Equal(t, leave.exit, s.ends())
			require.Equal(t, before, s.settings())
			for _, off := range []string{"\x1b[?1049l", "\x1b[?25h", "\x1b[?1002l", "\x1b[?2004l"} {
				s.untilSaid(off)
			}
		})
	}
}

func TestSuspendWithoutAShellSaysWhy(t *testing.T) {
	s := sit(t, nil) // leads its session: nothing would wake it
	s.untilSaid("Dunlin")
	s.types("\x1a")
	s.untilSaid("no shell here")
	s.types("quit\r")
	require.Equal(t, 0, s.ends())
}

func TestMouseIsBackAfterSuspending(t *testing.T) {
	shell, err := exec.LookPath("bash")
	if err != nil {
		t.Skip("no shell with job control here")
	}
	path, err := program()
	require.NoError(t, err)
	data := t.TempDir()
	s := seated(t, data, []string{"PS1=ready> "}, shell, "--norc", "-i")
	s.untilSaid("ready>")
	s.types(path + " --data " + data + "\r")
	s.untilSaid("Dunlin")
	const mouse = "\x1b[?1002h"
	require.Equal(t, 1, strings.Count(s.said(), mouse))
	s.types("\x1a")
	s.untilSaid("Stopped")
	s.types("fg\r")
	s.until("the mouse again", func() bool { return strings.Count(s.said(), mouse) == 2 })
	s.types("quit\r")
	s.until("the shell again", func() bool { return strings.Count(s.said(), "ready>") >= 3 })
}

func TestHangupLosesNothing(t *testing.T) {
	s := sit(t, nil, "practice", "--seed", "3")
	s.untilSaid("a routine look")
	s.types("\r")
	s.untilSaid("Laser in and")
	s.cmd.Process.Signal(syscall.SIGHUP)
	require.Equal(t, 130, s.ends())
	s.untilSaid("--resume")
	journal := s.journal()
	require.True(t, bytes.HasSuffix(journal, []byte("\n")))
	require.Contains(t, string(journal), `"routine"`)
}

func TestNoColourSaysTheSame(t *testing.T) {
	s := sit(t, []string{"NO_COLOR=1"}, "practice", "--seed", "3")
	s.untilSaid("a routine look")
	require.NotRegexp(t, "\x1b\\[[0-9;]*[1-9][0-9;]*m", s.said())
}

// TestWholeAlignmentInATerminal aligns the practice telescope by typed lines
// alone: a second telescope of the same seed knows where the spots are.
func TestWholeAlignmentInATerminal(t *testing.T) {
	s := sit(t, nil, "practice", "--seed", "5")
	s.untilSaid("a routine look")
	p := practising(t, 5, 80, 24, Options{}, env())
	kept := func() int { return bytes.Count(s.journal(), []byte("\n")) }
	for range 200 {
		a := p.align()
		if a == nil {
			break
		}
		text := p.answer()
		before := kept()
		p.enters(text)
		require.False(t, p.Bad, p.Note)
		s.types(text + "\r")
		s.until("an event for "+text, func() bool { return kept() > before })
	}
	require.Nil(t, p.align(), "no end")
	s.untilSaid("aligned: both spots")
	s.types("\r")
	require.Equal(t, 0, s.ends())

	lib, err := shelf.Open(s.data)
	require.NoError(t, err)
	records, errs := lib.Records()
	require.Empty(t, errs)
	require.Len(t, records, 1)
	end := p.Top().Screen.(*align.EndPage)
	require.Equal(t, end.State.Outcome, records[0].Outcome)
	require.Equal(t, end.State.Looks, records[0].Looks)
	require.Equal(t, end.State.Moves, records[0].Moves)
	require.True(t, records[0].Practice)
	s.untilSaid(records[0].ID)
}
