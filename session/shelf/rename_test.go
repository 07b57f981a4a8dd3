package shelf_test

import (
	"bytes"
	"os"
	"path/filepath"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"spotward/session/history"
	"spotward/session/lesson"
	"spotward/session/scope"
	"spotward/session/sessiontest"
	"spotward/session/shelf"
)

// A scope under another name has its records, journals and work there, and the
// same session taken from a laptop that has the old name is no other.
func TestRenameAndMergeAScope(t *testing.T) {
	l := sessiontest.OpenShelf(t)
	_, err := l.Scope(filepath.Join(sessiontest.ScopesDir, "heron.toml"))
	require.NoError(t, err)
	sessiontest.Stopped(t, l, sessiontest.NthID(1), "heron")
	_, errs := l.Records()
	require.Empty(t, errs)
	require.NoError(t, l.AddWork(history.Job{V: 1, T: time.Unix(0, 0).UTC(), Scope: "heron", What: "seen"}))
	pack := packOf(t, l)

	done, errs := l.RenameScope("heron", "Grey heron", false)
	require.Empty(t, errs)
	assert.Equal(t, shelf.Renamed{Journals: 1, Records: 1}, done)
	s, err := l.Scope("grey heron")
	require.NoError(t, err)
	assert.Equal(t, "Grey heron", s.Name)
	_, err = l.Scope("Heron")
	require.Error(t, err)
	work, err := l.Work()
	require.NoError(t, err)
	assert.Equal(t, "Grey heron", work[0].Scope)
	data, err := os.ReadFile(filepath.Join(l.Dir(), "scopes", "Grey heron.toml"))
	require.NoError(t, err)
	assert.True(t, bytes.HasPrefix(data, []byte("#")), "its comments are kept")
	require.NoError(t, os.Remove(sessiontest.RecordsPath(l)))
	records, errs := l.Records()
	require.Empty(t, errs)
	require.Len(t, records, 1)
	assert.Equal(t, "Grey heron", records[0].Scope)

	taken := take(t, l, pack)
	assert.Empty(t, taken.Refused)
	assert.Equal(t, 0, taken.Journals)

	_, errs = l.RenameScope("Heron", "Grey heron", false)
	var known *shelf.KnownNameError
	require.Len(t, errs, 1)
	require.ErrorAs(t, errs[0], &known)
	_, errs = l.RenameScope("Heron", "grey heron", true)
	require.Empty(t, errs)
	scopes, _ := l.Scopes()
	assert.Equal(t, []string{"Grey heron"}, scopeNames(scopes))
	_, errs = l.RenameScope("osprey", "Sea eagle", false)
	assert.ErrorContains(t, errs[0], "nothing here is called")
	_, errs = l.RenameScope("Grey heron", "Dunlin", true)
	assert.ErrorContains(t, errs[0], "built in")
}

func TestRenameAndRetireAKit(t *testing.T) {
	l := sessiontest.OpenShelf(t)
	require.NoError(t, l.SaveKit(scope.Kit{Name: "Loan 1", Laser: scope.Laser{Class: "2"}}))
	s := scope.Builtin()
	s.Name, s.Kit, s.Laser = "Wren", "Loan 1", scope.Laser{}
	require.NoError(t, l.SaveScope(s))
	_, errs := l.RenameKit("loan 1", "Red box", false)
	require.Empty(t, errs)
	s, err := l.Scope("Wren")
	require.NoError(t, err)
	assert.Equal(t, "Red box", s.Kit)
	pack := packOf(t, l)
	require.NoError(t, l.RetireKit("red box"))
	_, err = l.Kit("Red box")
	assert.ErrorContains(t, err, "is retired")
	stock, errs := l.Shelf()
	require.Empty(t, errs)
	assert.Equal(t, []string{"Red box"}, stock.Gone)

	taken := take(t, l, pack)
	assert.Len(t, taken.Refused, 1, "what was retired does not come back by itself")
	other := sessiontest.OpenShelf(t)
	take(t, other, packOf(t, l))
	gone, _ := other.RetiredKits()
	assert.Len(t, gone, 1)
}

// What differs is shown, and the one that is preferred counts.
func TestTakeTheirsOrOurs(t *testing.T) {
	l, other := sessiontest.OpenShelf(t), sessiontest.OpenShelf(t)
	s := scope.Builtin()
	s.Name = "Wren"
	require.NoError(t, l.SaveScope(s))
	s.CheckDays = 60
	require.NoError(t, other.SaveScope(s))
	pack := packOf(t, other)
	with := func(p shelf.Prefer) shelf.Taken {
		taken, err := l.TakeWith(bytes.NewReader(pack), int64(len(pack)), p)
		require.NoError(t, err)
		return taken
	}
	differs := []shelf.Differ{{What: "scope", Name: "Wren", Lines: []string{"check_days: left out -> check_days = 60"}}}
	for prefer, refused := range map[shelf.Prefer]int{shelf.PreferNone: 1, shelf.PreferOurs: 0} {
		taken := with(prefer)
		assert.Equal(t, differs, taken.Differ)
		assert.Len(t, taken.Refused, refused)
	}
	assert.Equal(t, differs, with(shelf.PreferTheirs).Differ)
	now, err := l.Scope("Wren")
	require.NoError(t, err)
	assert.Equal(t, 60, now.CheckDays)
	assert.Empty(t, with(shelf.PreferNone).Differ)
}

// One name in two spellings is one person, with the lessons of both.
func TestRenamingMergesTrainees(t *testing.T) {
	l := sessiontest.OpenShelf(t)
	require.NoError(t, l.AddLesson("Ann", lesson.Result{Lesson: "words"}))
	require.NoError(t, l.AddLesson("Anne", lesson.Result{Lesson: "places"}))
	_, errs := l.RenamePerson("Anne", "Ann")
	require.Empty(t, errs)
	names, err := l.Trainees()
	require.NoError(t, err)
	assert.Equal(t, []string{"Ann"}, names)
	results, err := l.LessonsOf("Ann")
	require.NoError(t, err)
	assert.Len(t, results, 2)
}
