package sessiontest

import (
	"flag"
	"os"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

var update = flag.Bool("update", false, "write golden files anew: then look at what differs")

// Update reports whether golden files are to be written anew, by -update.
func Update() bool { return *update }

// Golden compares with a golden file, or writes it anew with -update.
func Golden(t *testing.T, path, got string) {
	t.Helper()
	if *update {
		require.NoError(t, os.WriteFile(path, []byte(got), 0o644))
	}
	want, err := os.ReadFile(path)
	require.NoError(t, err)
	assert.Equal(t, string(want), got)
}
