//go:build linux

package command_test

import (
	"bytes"
	"errors"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"sync"
	"syscall"
	"testing"

	"github.com/creack/pty"
	"github.com/stretchr/testify/require"
	"golang.org/x/sys/unix"
)

// seat is the real program in a terminal that never answers a question.
type seat struct {
	t      *testing.T
	cmd    *exec.Cmd
	tty    *os.File // our end
	end    *os.File // the program's end, kept open to look at its settings
	data   string
	held   sync.Mutex    // while it is locked nobody reads
	was    unix.Termios  // the terminal's settings before the program began
	parked chan struct{} // closed when the reading is held back
	heard
}

func sit(t *testing.T, env []string, args ...string) *seat {
	data := t.TempDir()
	return seated(t, data, env, program(t), append(args, "--data", data)...)
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
	s.was = s.settings()
	require.NoError(t, s.cmd.Start())
	go s.listen()
	t.Cleanup(func() {
		s.cmd.Process.Kill()
		s.end.Close()
		s.tty.Close()
	})
	return s
}

// wait returns once nobody holds the reading back; whoever does is told.
func (s *seat) wait() {
	if s.held.TryLock() {
		s.held.Unlock()
		return
	}
	s.mu.Lock()
	parked := s.parked
	s.mu.Unlock()
	close(parked)
	s.held.Lock()
	defer s.held.Unlock()
}

func (s *seat) listen() {
	buf := make([]byte, 4096)
	for {
		s.wait()
		n, err := s.tty.Read(buf)
		s.take(buf[:n])
		if err != nil {
			return
		}
	}
}

func (s *seat) types(text string) {
	_, err := s.tty.WriteString(text)
	require.NoError(s.t, err)
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
		s.shows(t, "spotward")
		require.NotContains(t, s.text(), "\x1b", arg)
	}
}

func TestStartAsksTheTerminalNothing(t *testing.T) {
	for first, args := range map[string][]string{"Dunlin": nil, "Motors off": {"practice", "--seed", "1"}} {
		s := sit(t, nil, args...)
		s.shows(t, first)
		require.NotContains(t, s.text(), "\x1b]") // the colour of its ground
		require.NotContains(t, s.text(), "\x1b[6n")
		require.NotContains(t, s.text(), "\x1b[c")
	}
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
			s.shows(t, "Dunlin")
			require.NotEqual(t, s.was, s.settings(), "not in raw mode: nothing would be shown by this")
			leave.do(s)
			require.Equal(t, leave.exit, s.ends())
			require.Equal(t, s.was, s.settings())
			for _, off := range []string{"\x1b[?1049l", "\x1b[?25h", "\x1b[?1002l", "\x1b[?2004l"} {
				s.shows(t, off)
			}
		})
	}
}

func TestSuspendWithoutAShellSaysWhy(t *testing.T) {
	s := sit(t, nil) // leads its session: nothing would wake it
	s.shows(t, "Dunlin")
	s.types("\x1a")
	s.shows(t, "no shell here")
	s.types("quit\r")
	require.Equal(t, 0, s.ends())
}

func TestMouseIsBackAfterSuspending(t *testing.T) {
	shell, err := exec.LookPath("bash")
	if err != nil {
		t.Skip("no shell with job control here")
	}
	path := program(t)
	data := t.TempDir()
	s := seated(t, data, []string{"PS1=ready> "}, shell, "--norc", "-i")
	s.shows(t, "ready>")
	s.types(path + " --data " + data + "\r")
	s.shows(t, "Dunlin")
	const mouse = "\x1b[?1002h"
	require.Equal(t, 1, strings.Count(s.text(), mouse))
	s.types("\x1a")
	s.shows(t, "Stopped")
	s.types("fg\r")
	s.until(t, "the mouse again", func() bool { return strings.Count(s.text(), mouse) == 2 })
	s.types("quit\r")
	s.until(t, "the shell again", func() bool { return strings.Count(s.text(), "ready>") >= 3 })
}

func TestHangupLosesNothing(t *testing.T) {
	s := sit(t, nil, "practice", "--seed", "3")
	s.shows(t, "a routine look")
	s.types("\r")
	s.shows(t, "Laser in and")
	s.cmd.Process.Signal(syscall.SIGHUP)
	require.Equal(t, 130, s.ends())
	s.shows(t, "--resume")
	journal := s.journal()
	require.True(t, bytes.HasSuffix(journal, []byte("\n")))
	require.Contains(t, string(journal), `"routine"`)
}

func TestNoColourSaysTheSame(t *testing.T) {
	s := sit(t, []string{"NO_COLOR=1"}, "practice", "--seed", "3")
	s.shows(t, "a routine look")
	require.NotRegexp(t, "\x1b\\[[0-9;]*[1-9][0-9;]*m", s.text())
}
