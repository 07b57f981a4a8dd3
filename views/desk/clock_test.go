package desk_test

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"spotward/session"
	"spotward/session/scope"
	"spotward/session/shelf"
	"spotward/views/desk"
)

// A clock that is put back an hour in the middle of a session, and again before
// it is taken up, changes nothing of what happened, nor its order.
func TestClockPutBack(t *testing.T) {
	lib, err := shelf.Open(t.TempDir())
	require.NoError(t, err)
	now := time.Date(2026, 10, 25, 2, 30, 0, 0, time.UTC)
	d := &desk.Desk{Library: lib, Now: func() time.Time { now = now.Add(time.Second); return now }}
	w, err := d.Align(scope.Builtin(), false)
	require.NoError(t, err)
	send := func(line string) {
		t.Helper()
		_, err := w.Line(line)
		require.NoError(t, err)
	}
	send("routine")
	now = now.Add(-time.Hour)
	send("none")
	id := w.State().ID
	_, err = w.Close()
	require.NoError(t, err)

	now = now.Add(-time.Hour)
	open, errs := lib.Unfinished("")
	require.Empty(t, errs)
	require.Len(t, open, 1)
	w, err = d.TakeUp(id)
	require.NoError(t, err)
	assert.Equal(t, session.StepCircle, w.State().Ask().Step)
	assert.True(t, w.State().Laser.On)
	send("stop safely")
	send("yes")
	record, err := w.Close()
	require.NoError(t, err)
	assert.Equal(t, id, record)

	// A session that begins in the same hour again is another one.
	next, err := d.Align(scope.Builtin(), false)
	require.NoError(t, err)
	assert.NotEqual(t, id, next.State().ID)
	_, err = next.Close()
	require.NoError(t, err)
	records, errs := lib.Records()
	require.Empty(t, errs)
	require.Len(t, records, 1)
	assert.Equal(t, session.OutcomeStopped, records[0].Outcome)
}
