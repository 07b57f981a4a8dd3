package shelf_test

import (
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"spotward/session/sessiontest"
	"spotward/session/shelf"
)

// Who names a scope whose file is spoilt is told what is wrong with it; a name
// that only occurs in that line is one that is not known.
func TestASpoiltFileIsToldToWhoNamesIt(t *testing.T) {
	l := sessiontest.OpenShelf(t)
	dir := filepath.Join(l.Dir(), "scopes")
	require.NoError(t, os.MkdirAll(dir, 0o755))
	require.NoError(t, os.WriteFile(filepath.Join(dir, "Wren.toml"), []byte("format = 1\nname = \"Wren\"\naperture_mm = 0\nfocal_length_mm = 1200\n"), 0o644))
	for _, name := range []string{"Wren", "wren"} {
		_, err := l.Scope(name)
		var bad *shelf.FileError
		require.ErrorAs(t, err, &bad, name)
		assert.Equal(t, filepath.Join(dir, "Wren.toml"), bad.Path)
		assert.ErrorContains(t, err, "aperture_mm = 0")
	}
	for _, name := range []string{"ren", "aperture_mm", "scopes"} {
		_, err := l.Scope(name)
		assert.ErrorContains(t, err, "no scope", name)
	}
}

// Who names a session whose journal is spoilt, by its id or how that ends, is told
// what is wrong with it.
func TestASpoiltJournalIsToldToWhoNamesIt(t *testing.T) {
	l := sessiontest.OpenShelf(t)
	const id = "20260101T200000Z-beef"
	require.NoError(t, os.WriteFile(filepath.Join(l.Dir(), "journals", id+".jsonl"), []byte("{}\n{}\n"), 0o644))
	for _, meant := range []string{id, "beef"} {
		_, err := l.Record(meant)
		var bad *shelf.SessionError
		require.ErrorAs(t, err, &bad, meant)
		assert.Equal(t, id, bad.ID)
	}
	for _, meant := range []string{"", "line", "eef", "jsonl"} {
		_, err := l.Record(meant)
		assert.ErrorContains(t, err, "no record", "%q", meant)
	}
}
