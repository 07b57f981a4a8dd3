//go:build !windows

package command_test

import (
	"os"
	"os/exec"
	"path/filepath"
	"sync"
	"testing"

	"github.com/stretchr/testify/require"

	"spotward/session/sessiontest"
	"spotward/views/command"
	"spotward/views/terminal/quiet"
)

// programsName is by what name these tests are the program itself: they are
// linked with all of it, and to build it once more takes longer than most of them.
const programsName = "spotward"

// made is where the program is, once a test has asked for it.
var made struct {
	sync.Once
	path string
	err  error
}

// program is the real program. With -long it is built; else it is these tests by
// its name, which do as main.go does. With -short none is started.
func program(t *testing.T) string {
	t.Helper()
	if testing.Short() {
		t.Skip("real programs are for the usual run")
	}
	made.Do(func() {
		dir, err := os.MkdirTemp("", "spotward")
		if err != nil {
			made.err = err
			return
		}
		made.path = filepath.Join(dir, programsName)
		if !sessiontest.Long() {
			self, err := os.Executable()
			if err == nil {
				err = os.Symlink(self, made.path)
			}
			made.err = err
			return
		}
		cmd := exec.Command("go", "build", "-o", made.path, ".")
		cmd.Dir = root
		if out, err := cmd.CombinedOutput(); err != nil {
			made.err = &exec.Error{Name: string(out), Err: err}
		}
	})
	require.NoError(t, made.err)
	return made.path
}

func TestMain(m *testing.M) {
	if filepath.Base(os.Args[0]) == programsName {
		quiet.Restore()
		os.Exit(command.Run(os.Args[1:], command.Streams{In: os.Stdin, Out: os.Stdout, Err: os.Stderr}))
	}
	code := m.Run()
	if made.path != "" {
		os.RemoveAll(filepath.Dir(made.path))
	}
	os.Exit(code)
}
