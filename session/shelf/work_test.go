package shelf_test

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"spotward/session/history"
	"spotward/session/sessiontest"
)

// The log goes along in a pack, once; a forgotten name is in it no more, and does
// not come back with a pack.
func TestWorkIsKeptPackedAndForgotten(t *testing.T) {
	l, other := sessiontest.OpenShelf(t), sessiontest.OpenShelf(t)
	spring := history.Job{V: 1, T: time.Date(2026, 5, 1, 10, 0, 0, 0, time.UTC), Scope: "Heron", Part: history.PartPrimary, What: "spring C replaced", Who: "Ida"}
	note := history.Job{V: 1, T: spring.T.AddDate(0, 0, 1), Kit: "Red box", What: "the case is cracked"}
	require.NoError(t, l.AddWork(spring))
	require.NoError(t, l.AddWork(note))
	require.Error(t, l.AddWork(history.Job{V: 1, What: "of nothing"}))
	require.Error(t, l.AddWork(history.Job{V: 1, Scope: "Heron"}))

	pack := packOf(t, l)
	for _, n := range []int{2, 0} {
		taken := take(t, other, pack)
		assert.Empty(t, taken.Refused)
		assert.Equal(t, n, taken.Work)
	}
	_, errs := other.Forget("ida")
	require.Empty(t, errs)
	take(t, other, pack)
	all, err := other.Work()
	require.NoError(t, err)
	spring.Who = ""
	assert.Equal(t, []history.Job{spring, note}, all)
}
