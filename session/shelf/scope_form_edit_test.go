package shelf_test

import (
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"spotward/session/scope"
	"spotward/session/sessiontest"
	"spotward/session/shelf"
)

func TestEditKeepsWhatItDoesNotAskFor(t *testing.T) {
	files, err := filepath.Glob(filepath.Join(sessiontest.ScopesDir, "*.toml"))
	require.NoError(t, err)
	for _, path := range files {
		l := sessiontest.OpenShelf(t)
		s, err := l.Scope(path)
		require.NoError(t, err)
		f, err := l.EditScope(s.Name)
		require.NoError(t, err)
		_, _, _, asked := f.Asked()
		require.False(t, asked, "all is looked over first")
		assert.Equal(t, string(scope.EncodeScope(s)), string(scope.EncodeScope(f.Scope())), path)
	}
}

func TestEditKeepsAnyScope(t *testing.T) {
	dir := t.TempDir()
	rapid.Check(t, func(r *rapid.T) {
		l, err := shelf.Open(dir)
		require.NoError(r, err)
		s := scopes().Draw(r, "scope")
		s.Name = "Wren"
		if scope.CheckName(s.Kit) != nil {
			s.Kit = ""
		}
		require.NoError(r, l.SaveScope(s))
		f, err := l.EditScope("wren")
		require.NoError(r, err)
		after := f.Scope()
		given := slices.DeleteFunc(slices.Clone(s.Estimates), func(key string) bool {
			return !strings.Contains(string(scope.EncodeScope(s)), key[strings.Index(key, ".")+1:])
		})
		for _, key := range given {
			require.Contains(r, after.Estimates, key)
		}
		s.Estimates, after.Estimates = nil, nil
		require.Equal(r, string(scope.EncodeScope(s)), string(scope.EncodeScope(after)))
	})
}

func TestEditReplacesAnEstimate(t *testing.T) {
	l := sessiontest.OpenShelf(t)
	require.NoError(t, l.SaveScope(scope.Scope{Format: 1, Name: "Wren", Aperture: scope.MM(200), FocalLength: scope.MM(1200)}))
	f, err := l.EditScope("wren")
	require.NoError(t, err)
	_, err = f.Take("mirrors apart")
	require.NoError(t, err)
	q, _, _, _ := f.Asked()
	assert.Equal(t, "1000 mm", f.Estimate(q))
	_, err = f.Take("985")
	require.NoError(t, err)
	_, _, _, asked := f.Asked()
	require.False(t, asked, "it is looked over again")
	require.NoError(t, l.KeepForm(f))
	s, _ := l.Scope("wren")
	assert.Equal(t, scope.MM(985), s.Secondary.FromPrimary)
	assert.NotContains(t, s.Guessed(), "how far apart the mirrors are")

	f, err = l.EditScope("wren")
	require.NoError(t, err)
	require.False(t, f.Continued, "its draft went with what was kept")
	for _, line := range []string{"mirrors apart", "unknown"} {
		_, err = f.Take(line)
		require.NoError(t, err)
	}
	require.NoError(t, l.KeepForm(f))
	s, _ = l.Scope("wren")
	assert.False(t, s.Secondary.FromPrimary.Given())
}
