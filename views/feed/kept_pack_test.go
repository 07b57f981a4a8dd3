package feed_test

import (
	"bytes"
	"compress/gzip"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"spotward/session/scope"
	"spotward/session/sessiontest"
)

// keptPath holds the kept sessions, one after another; a line with their name
// comes before each.
const (
	keptPath = "../../testdata/feed/kept.txt.gz"
	markName = "= "
)

// keptSession is a session as it was played once: its lines in and out.
type keptSession struct {
	name  string
	lines []string
}

func readKept(t *testing.T) []keptSession {
	t.Helper()
	packed, err := os.ReadFile(keptPath)
	if os.IsNotExist(err) && sessiontest.Update() {
		return nil
	}
	require.NoError(t, err)
	z, err := gzip.NewReader(bytes.NewReader(packed))
	require.NoError(t, err)
	text, err := io.ReadAll(z)
	require.NoError(t, err)
	var kept []keptSession
	for line := range strings.Lines(string(text)) {
		line = strings.TrimSuffix(line, "\n")
		if name, ok := strings.CutPrefix(line, markName); ok {
			kept = append(kept, keptSession{name: name})
			continue
		}
		require.NotEmpty(t, kept, "the first line is no name")
		k := &kept[len(kept)-1]
		k.lines = append(k.lines, line)
	}
	return kept
}

func writeKept(t *testing.T, kept []keptSession) {
	t.Helper()
	var packed bytes.Buffer
	z, err := gzip.NewWriterLevel(&packed, gzip.BestCompression)
	require.NoError(t, err)
	for _, k := range kept {
		fmt.Fprintln(z, markName+k.name)
		for _, l := range k.lines {
			fmt.Fprintln(z, l)
		}
	}
	require.NoError(t, z.Close())
	require.NoError(t, os.WriteFile(keptPath, packed.Bytes(), 0o644))
}

// keptScopes returns the scopes of testdata and the one that is always there,
// by the names of their files.
func keptScopes(t *testing.T) map[string]scope.Scope {
	t.Helper()
	files, err := filepath.Glob("../../testdata/scopes/*.toml")
	require.NoError(t, err)
	scopes := map[string]scope.Scope{"dunlin": scope.Builtin()}
	for _, f := range files {
		name := strings.TrimSuffix(filepath.Base(f), ".toml")
		scopes[name] = scopeOf(t, name)
	}
	return scopes
}
