//go:build !windows

package command_test

import (
	"testing"

	"github.com/creack/pty"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"spotward/session/scope"
	"spotward/session/shelf"
)

// A scope is described on a terminal, which is made smaller meanwhile and goes
// away once.
func TestDescribedOnATerminal(t *testing.T) {
	dir := t.TempDir()
	s := onScreen(t, "--data", dir, "scopes", "new")
	shows := func(text string) { s.shows(t, text) }
	shows("What is it called?")
	s.write(t, "Wren\r")
	shows("2 of ")
	require.NoError(t, pty.Setsize(s.tty, &pty.Winsize{Rows: 18, Cols: 60}))
	s.write(t, "8\r")
	shows("3 of ")
	require.NoError(t, s.cmd.Process.Kill())
	_ = s.cmd.Wait() // it was killed
	<-s.end

	s = onScreen(t, "--data", dir, "scopes", "new")
	shows("3 of ")
	s.write(t, "f/6\rdone\r")
	shows("keep it?")
	s.write(t, "\r")
	require.NoError(t, s.cmd.Wait())
	<-s.end
	assert.Contains(t, s.text(), "Wren is saved.")
	l, err := shelf.Open(dir)
	require.NoError(t, err)
	sc, err := l.Scope("wren")
	require.NoError(t, err)
	assert.Equal(t, scope.Inch(8), sc.Aperture)

	s = onScreen(t, "--data", dir, "scopes", "edit", "wren")
	shows("keep it?")
	s.write(t, "\x1b")
	require.NoError(t, s.cmd.Wait(), "it was only looked at")
	<-s.end
	assert.Contains(t, s.text(), "Wren is as it was.")
}
