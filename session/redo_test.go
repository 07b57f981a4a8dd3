package session_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"spotward/session"
	"spotward/session/answer"
	"spotward/session/event"
)

// What was undone before a session was left can be redone once nothing was moved
// since, and cannot where something was.
func TestRedoneAfterItWasTakenUp(t *testing.T) {
	for _, c := range []struct {
		moved string
		want  error
	}{{session.MovedNo, nil}, {session.MovedYes, session.ErrNoRedo}} {
		keep := &memory{}
		s := start(t, keep)
		p := played(t, s, "routine", "none", "still", "4 12", "5 10")
		before := shown(p.State())
		require.NoError(t, s.Do(event.Event{Kind: event.KindUndo}))
		events, err := session.Events(keep.lines)
		require.NoError(t, err)
		again, err := session.TakeUp(events, nil, nil)
		require.NoError(t, err)
		require.Equal(t, session.StepMoved, again.State().Ask().Step)
		redo := event.Event{Kind: event.KindRedo}
		assert.ErrorIs(t, again.Do(redo), session.ErrNoRedo, "first it is said whether the scope was moved")
		require.NoError(t, again.Do(event.Event{Kind: event.KindChoice, Choice: c.moved}))
		assert.ErrorIs(t, again.Do(redo), c.want)
		if c.want == nil {
			assert.Equal(t, before, shown(again.State()))
		}
	}
}

// played types lines into a session.
func played(t *testing.T, s *session.Session, lines ...string) *session.Session {
	for _, line := range lines {
		typed, err := answer.Line(s.State(), line)
		require.NoError(t, err, line)
		require.NoError(t, s.Do(typed.Events...), line)
	}
	return s
}
