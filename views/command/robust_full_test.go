//go:build !windows

package command_test

import (
	"bytes"
	"os"
	"os/exec"
	"os/signal"
	"path/filepath"
	"strings"
	"syscall"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"spotward/views/command"
)

// withFileSize does something while no file of this program grows beyond n
// bytes: to the program it is as on a full disk.
func withFileSize(t *testing.T, n int, do func()) {
	t.Helper()
	var old syscall.Rlimit
	require.NoError(t, syscall.Getrlimit(syscall.RLIMIT_FSIZE, &old))
	signal.Ignore(syscall.SIGXFSZ)
	require.NoError(t, syscall.Setrlimit(syscall.RLIMIT_FSIZE, &syscall.Rlimit{Cur: uint64(n), Max: old.Max}))
	do()
	require.NoError(t, syscall.Setrlimit(syscall.RLIMIT_FSIZE, &old))
	signal.Reset(syscall.SIGXFSZ)
}

const fullEnv = "SPOTWARD_TEST_FULL_DISK"

// A file that is there already is replaced by a whole one or not at all,
// wherever the disk is full.
func TestNothingIsReplacedOnAFullDisk(t *testing.T) {
	// In a program of its own: the limit is for all of its files, those of the
	// test tool too.
	if os.Getenv(fullEnv) == "" {
		cmd := exec.Command(os.Args[0], "-test.run=^TestNothingIsReplacedOnAFullDisk$", "-test.v")
		cmd.Env = append(os.Environ(), fullEnv+"=1")
		out, err := cmd.CombinedOutput()
		require.NoError(t, err, string(out))
		require.Contains(t, string(out), "all of them whole")
		return
	}
	dir, out := filepath.Join(t.TempDir(), "data"), t.TempDir()
	id := newKeeper(t, dir).align()
	for name, args := range map[string][]string{
		"shed.zip":   {"pack"},
		"page.html":  {"print", id},
		"label.html": {"print", id, "--label"},
		"all.csv":    {"export"},
		"all.json":   {"export", "--format", "json"},
	} {
		file := filepath.Join(out, name)
		args := append(append([]string{"records"}, args...), "--to", file, "--data="+dir)
		run(t, 0, args...)
		before, err := os.ReadFile(file)
		require.NoError(t, err)
		for _, room := range []int{0, 1, len(before) / 3, len(before) / 2, len(before) - 22} {
			var said, wrong bytes.Buffer
			exit := 0
			withFileSize(t, room, func() {
				exit = command.Run(args, command.Streams{In: strings.NewReader(""), Out: &said, Err: &wrong})
			})
			assert.Equal(t, 1, exit, "%s, room for %d bytes", name, room)
			assert.Empty(t, said.String())
			assert.Equal(t, 1, strings.Count(wrong.String(), "\n"), wrong.String())
			assert.Contains(t, wrong.String(), name+" could not be written")
			assert.NotContains(t, wrong.String(), ".spotward-", "no name that nobody has given")
			after, err := os.ReadFile(file)
			require.NoError(t, err)
			require.True(t, bytes.Equal(before, after), "%s, room for %d bytes: %d of %d are left", name, room, len(after), len(before))
		}
	}
	left, err := os.ReadDir(out)
	require.NoError(t, err)
	assert.Len(t, left, 5, "nothing half written lies about")
	t.Log("all of them whole")
}

// To the screen as well: what could not be written is no success.
func TestPackToAFullScreen(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "data")
	newKeeper(t, dir).align()
	var wrong bytes.Buffer
	exit := command.Run([]string{"records", "pack", "--to", "-", "--data=" + dir}, command.Streams{In: strings.NewReader(""), Out: full{}, Err: &wrong})
	assert.Equal(t, 1, exit)
	assert.Equal(t, "spotward: the output could not be written (no space left on device): make room, or send it elsewhere\n", wrong.String())
}

// full is a device that nothing can be written to.
type full struct{}

func (full) Write([]byte) (int, error) { return 0, syscall.ENOSPC }
