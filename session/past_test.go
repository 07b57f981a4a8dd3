package session_test

import (
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"spotward/session"
	"spotward/session/event"
)

// The past that a state has with it is the one that its events lead through.
func TestPastIsWhatTheEventsLeadThrough(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := startAt(t, rapid.SampledFrom(walksFrom()).Draw(t, "from"), nil)
		walk(t, s, func(event.Event, session.State, error) {})
		past, events := s.State().Past(), s.State().Events()
		require.Len(t, past, len(events))
		var before session.State
		for i, p := range past {
			require.Equal(t, events[i], p.Event)
			next, err := session.Apply(before, p.Event)
			require.NoError(t, err)
			require.Equal(t, shown(next), shown(p.After), "after %s", p.Event.Kind)
			if i > 0 {
				require.Equal(t, shown(before), shown(p.Before))
			}
			before = next
		}
		require.Equal(t, shown(before), shown(s.State()))
	})
}
