package session

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/require"

	"spotward/session/event"
	"spotward/session/scope"
)

// What is asked is made with the state: however often a face asks, no question is
// put together again.
func TestAskIsMadeOnce(t *testing.T) {
	sc := scope.Builtin()
	s, err := Apply(State{}, event.Event{Kind: event.KindBegin, ID: "x", Scope: &sc})
	require.NoError(t, err)
	said := 0
	ready := *s.way.table[0]
	ready.Steps = slices.Clone(ready.Steps)
	ready.Steps[0].Say = func(State) string { said++; return "why?" }
	s.way.table = append([]*Stage{&ready}, s.way.table[1:]...)

	s, err = Apply(s, event.Event{Kind: event.KindQuit})
	require.NoError(t, err)
	require.Equal(t, 1, said)
	for range 20 {
		require.Equal(t, "why?", s.Ask().Say)
	}
	require.Equal(t, 1, said)
}
