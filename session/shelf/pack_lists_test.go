package shelf_test

import (
	"fmt"
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"

	"spotward/session/history"
	"spotward/session/lesson"
	"spotward/session/scope"
	"spotward/session/sessiontest"
	"spotward/session/shelf"
)

// lists is all that a data directory lists, but whose directory it is.
func lists(t *testing.T, l *shelf.Shelf) map[string]any {
	t.Helper()
	out := map[string]any{}
	put := func(name string, list any, errs []error) {
		require.Empty(t, errs, name)
		out[name] = list
	}
	scopes, errs := l.Scopes()
	put("scopes", scopes, errs)
	retired, errs := l.RetiredScopes()
	put("retired", retired, errs)
	kits, errs := l.Kits()
	put("kits", kits, errs)
	records, open, errs := l.Sessions()
	put("records", records, errs)
	put("open", open, nil)
	trainees, err := l.Trainees()
	require.NoError(t, err)
	slices.Sort(trainees)
	for _, name := range trainees {
		results, err := l.LessonsOf(name)
		require.NoError(t, err)
		out["lessons of "+name] = results
	}
	work, err := l.Work()
	require.NoError(t, err)
	out["work"] = work
	return out
}

// anyShelf fills a data directory with some of all that can stand in one.
func anyShelf(t *testing.T, seed uint64) *shelf.Shelf {
	t.Helper()
	l := sessiontest.OpenShelf(t)
	dice := rand.New(rand.NewPCG(seed, 3))
	names := []string{"heron", "wren", "avocet"}
	for n := range dice.IntN(4) {
		require.NoError(t, l.SaveKit(scope.Kit{Name: fmt.Sprint("Loan ", n), Laser: scope.Laser{Class: "2"}}))
	}
	for n := range 1 + dice.IntN(4) {
		id, name := sessiontest.NthID(n+1), names[dice.IntN(len(names))]
		if dice.IntN(3) > 0 {
			sessiontest.Stopped(t, l, id, name)
			continue
		}
		_, j := sessiontest.Begun(t, l, id, name)
		require.NoError(t, j.Close())
	}
	for range dice.IntN(4) {
		r := lesson.Result{Lesson: "dial", Passed: dice.IntN(2) == 0, Tasks: 1 + dice.IntN(8), T: sessiontest.Ticking()().UTC()}
		require.NoError(t, l.AddLesson([]string{"Ann", "Bo"}[dice.IntN(2)], r))
	}
	if all, _ := l.Scopes(); len(all) > 1 && dice.IntN(2) == 0 {
		require.NoError(t, l.RetireScope(all[0].Name))
	}
	if dice.IntN(2) == 0 {
		require.NoError(t, l.AddWork(history.Job{V: 1, T: sessiontest.Ticking()().UTC(), Scope: "Heron", What: "spring changed"}))
	}
	return l
}

// What is packed and taken elsewhere is listed there as it is here.
func TestPackedAndTakenIsListedAlike(t *testing.T) {
	for seed := range sessiontest.Of(2, 6, 2000) {
		l, other := anyShelf(t, uint64(seed)), sessiontest.OpenShelf(t)
		want := lists(t, l)
		require.Empty(t, take(t, other, packOf(t, l)).Refused, "%d", seed)
		require.Equal(t, want, lists(t, other), "%d", seed)
	}
}
