package sessiontest

import (
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/require"

	"spotward/session/scope"
)

// ScopesDir is where the scopes of testdata are.
var ScopesDir = Testdata("scopes")

// Testdata returns the path of what is in testdata at the top of the tree. A
// test runs in its package's directory, so the top is looked for upward; where there
// is none, tests have been started elsewhere as a program, and nothing is looked up.
func Testdata(parts ...string) string {
	for dir := "."; ; dir = filepath.Join("..", dir) {
		if _, err := os.Stat(filepath.Join(dir, "go.mod")); err == nil {
			return filepath.Join(append([]string{dir, "testdata"}, parts...)...)
		}
		if len(dir) > 60 {
			return filepath.Join(append([]string{"testdata"}, parts...)...)
		}
	}
}

// ReadScope returns a scope of testdata.
func ReadScope(t testing.TB, name string) scope.Scope {
	t.Helper()
	data, err := os.ReadFile(filepath.Join(ScopesDir, name+".toml"))
	require.NoError(t, err)
	s, err := scope.DecodeScope(data)
	require.NoError(t, err)
	return s
}
