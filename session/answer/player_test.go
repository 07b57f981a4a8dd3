package answer_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"spotward/session"
	"spotward/session/answer"
	"spotward/session/event"
	"spotward/session/scope"
)

// player types lines into a session, each of which must be taken.
type player struct {
	t *testing.T
	*session.Session
}

func play(t *testing.T, sc scope.Scope) player {
	s, err := session.Start(event.Event{ID: "20260101T000000Z-0001", Scope: &sc}, nil)
	require.NoError(t, err)
	return player{t, s}
}

func (p player) line(lines ...string) player {
	p.t.Helper()
	for _, l := range lines {
		typed, err := answer.Line(p.State(), l)
		require.NoError(p.t, err, "%q at %s", l, p.State().Stage().ID)
		require.NoError(p.t, p.Do(typed.Events...), "%q at %s", l, p.State().Stage().ID)
	}
	return p
}

func (p player) at(stage session.StageID, step session.StepID) player {
	p.t.Helper()
	require.Equal(p.t, stage, p.State().Stage().ID)
	require.Equal(p.t, step, p.State().Ask().Step)
	return p
}
