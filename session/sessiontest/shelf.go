package sessiontest

import (
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/require"

	"spotward/session"
	"spotward/session/event"
	"spotward/session/shelf"
)

// Begun starts a session on a scope of testdata and returns it with its
// journal.
func Begun(t *testing.T, l *shelf.Shelf, id, scope string) (*session.Session, *shelf.Journal) {
	t.Helper()
	sc := ReadScope(t, scope)
	j, err := l.CreateJournal(id, "Ada", Ticking())
	require.NoError(t, err)
	dir, count, err := l.NextCount()
	require.NoError(t, err)
	s, err := session.Start(event.Event{ID: id, Scope: &sc, Who: "Ada", Dir: dir, Count: count}, j)
	require.NoError(t, err)
	return s, j
}

// Stopped leaves a session that was begun and made safe.
func Stopped(t *testing.T, l *shelf.Shelf, id, scope string) {
	t.Helper()
	s, j := Begun(t, l, id, scope)
	require.NoError(t, s.Do(event.Event{Kind: event.KindStop}))
	for i := 0; !s.State().Over; i++ {
		require.Less(t, i, 50, "a session that is made safe comes to an end")
		ev := event.Event{Kind: event.KindConfirm}
		if ask := s.State().Ask(); ask.Want == session.WantChoice {
			ev = event.Event{Kind: event.KindChoice, Choice: ask.Options[0].ID}
		}
		require.NoError(t, s.Do(ev))
	}
	require.NoError(t, j.Close())
}

// RecordsPath is the file of records.
func RecordsPath(l *shelf.Shelf) string { return filepath.Join(l.Dir(), "records.jsonl") }

// OpenShelf opens a shelf in a temporary directory.
func OpenShelf(t *testing.T) *shelf.Shelf {
	t.Helper()
	l, err := shelf.Open(filepath.Join(t.TempDir(), "data"))
	require.NoError(t, err)
	return l
}
