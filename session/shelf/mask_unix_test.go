//go:build unix

package shelf_test

import (
	"io/fs"
	"os"
	"os/exec"
	"path/filepath"
	"syscall"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"spotward/session/sessiontest"
	"spotward/session/shelf"
)

// Who may read what is kept is as the system's mask has it: names of people are
// in it.
func TestTheMaskIsRespected(t *testing.T) {
	const env = "SPOTWARD_TEST_MASK"
	if os.Getenv(env) == "" { // in a program of its own: the mask is all of it's
		cmd := exec.Command(os.Args[0], "-test.run=^TestTheMaskIsRespected$")
		cmd.Env = append(os.Environ(), env+"=1")
		out, err := cmd.CombinedOutput()
		require.NoError(t, err, "%s", out)
		return
	}
	dir := filepath.Join(t.TempDir(), "data")
	syscall.Umask(0o077)
	l, err := shelf.Open(dir)
	require.NoError(t, err)
	_, err = l.Scope(sessiontest.ScopesDir + "/heron.toml")
	require.NoError(t, err)
	sessiontest.Stopped(t, l, sessiontest.NthID(1), "heron")
	_, errs := l.Records()
	require.Empty(t, errs)
	require.NoError(t, filepath.WalkDir(dir, func(path string, d fs.DirEntry, err error) error {
		require.NoError(t, err)
		info, err := d.Info()
		require.NoError(t, err)
		assert.Zero(t, info.Mode().Perm()&0o077, path)
		return nil
	}))
}

// A link or a pipe in the place of a file of the data directory is refused, and
// nobody waits for it.
func TestLinksAndPipesAreRefused(t *testing.T) {
	for _, name := range []string{"records.jsonl", "records.lock", "directory.json", "directory.lock"} {
		for _, kind := range []string{"pipe", "link"} {
			l := sessiontest.OpenShelf(t)
			path, elsewhere := filepath.Join(l.Dir(), name), filepath.Join(t.TempDir(), "elsewhere")
			require.NoError(t, os.WriteFile(elsewhere, []byte("mine"), 0o644))
			if kind == "pipe" {
				require.NoError(t, syscall.Mkfifo(path, 0o644))
			} else {
				require.NoError(t, os.Symlink(elsewhere, path))
			}
			_, _, _ = l.NextCount()
			_, _ = l.Records()
			_, errs := l.Forget("Ada")
			_ = errs
			assert.Equal(t, "mine", readFile(t, elsewhere), "%s as a %s", name, kind)
		}
	}
}
