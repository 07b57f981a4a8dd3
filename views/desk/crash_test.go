package desk_test

import (
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"spotward/views/desk"
)

// A place is told only where something stands.
func TestCrashLogOnAFullDisk(t *testing.T) {
	const full = "/dev/full"
	if _, err := os.Stat(full); err != nil {
		t.Skip("no device here that is always full")
	}
	log := desk.CrashLog{Dir: t.TempDir()}
	path := filepath.Join(log.Dir, "crash.log")
	assert.Equal(t, path, log.Write("drawing", "a fault"))
	require.NoError(t, os.Remove(path))
	require.NoError(t, os.Symlink(full, path))
	assert.Contains(t, log.Write("drawing", "a fault"), "nowhere")
}
