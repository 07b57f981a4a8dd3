package session_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"spotward/optics"
	"spotward/session"
	"spotward/session/event"
)

// A search that has nothing more to turn ends with the same answer: the face is
// looked at, and what is due there is told at once.
func TestTheMoveAfterASearchIsToldAtOnce(t *testing.T) {
	s := start(t, nil)
	answer := func(choice string) {
		t.Helper()
		require.NoError(t, s.Do(event.Event{Kind: event.KindChoice, Choice: choice}))
	}
	read := func(saw event.Sight, right, up float64) {
		t.Helper()
		require.NoError(t, s.Do(event.Event{Kind: event.KindReading, Face: s.State().Ask().Face, Saw: saw, Right: right, Up: up}))
		_, due := s.State().Advise()
		require.False(t, due, "told at once")
	}
	answer("routine")
	read(event.SawGone, 0, 0)
	answer(session.CircleStill)
	read(event.SawPlace, 0.5, 1)
	read(event.SawPlace, 1, 0.5)
	answer(session.VerdictBoth)
	require.NoError(t, s.Do(event.Event{Kind: event.KindBack}))
	answer(session.VerdictBoth)
	read(event.SawPlace, 1, 1)
	read(event.SawPlace, 1, 1)
	read(event.SawGone, 0, 0)
	read(event.SawGone, 0, 0)
	require.NoError(t, s.Do(event.Event{Kind: event.KindUndo}))
	require.NoError(t, s.Do(event.Event{Kind: event.KindRedo}))
	read(event.SawPlace, 1, 1)
	require.Equal(t, optics.FaceTarget, s.State().Ask().Face, "the face alone can tell")
}
