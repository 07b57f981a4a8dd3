package terminal

import (
	"os"
	"sync"
	"testing"

	"github.com/stretchr/testify/require"
)

// made is a data directory that many tests begin with. It is filled once, and
// each test gets a copy of its own.
type made struct {
	fill sync.Once
	dir  string
}

// kept has the whole sessions that are kept; shed the months of a lending shed.
var kept, shed made

// copied returns a copy that t may change.
func (m *made) copied(t testing.TB, fill func(t testing.TB, dir string)) string {
	t.Helper()
	m.fill.Do(func() {
		dir, err := os.MkdirTemp("", "spotward-made")
		require.NoError(t, err)
		m.dir = dir
		fill(t, dir)
	})
	dir := t.TempDir()
	require.NoError(t, os.CopyFS(dir, os.DirFS(m.dir)))
	return dir
}

func (m *made) remove() {
	if m.dir != "" {
		os.RemoveAll(m.dir)
	}
}
