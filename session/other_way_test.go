package session_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"spotward/optics"
	"spotward/session"
	"spotward/session/event"
	"spotward/session/scope"
)

// Said before the look or after the turn was said to be made: the same is
// believed.
func TestTheOtherWaySaidAfterTheTurn(t *testing.T) {
	begun := func() player {
		return play(t, scope.Builtin()).line("routine", "none", "still", "4 12").at(session.StageSecondary, "p")
	}
	p := begun()
	told := p.State().Told()
	require.Len(t, told.Moves, 2)
	atOnce := begun().line("other way").State()

	var turns []optics.Turn
	for _, m := range told.Moves {
		turns = append(turns, m.Turn)
	}
	s, err := session.Apply(p.State(), event.Event{Kind: event.KindTurned, Turned: turns})
	require.NoError(t, err)
	straight := s
	s, err = session.Apply(s, event.Event{Kind: event.KindScrew, Is: event.SaysOtherWay})
	require.NoError(t, err)
	assert.Equal(t, atOnce.Tracker(optics.Secondary), s.Tracker(optics.Secondary))
	assert.NotEqual(t, straight.Tracker(optics.Secondary), s.Tracker(optics.Secondary))
	assert.Equal(t, atOnce.Moves, s.Moves)
	assert.Nil(t, s.Told())
	back, err := session.Apply(s, event.Event{Kind: event.KindScrew, Is: event.SaysOtherWay})
	require.NoError(t, err)
	assert.Equal(t, straight.Tracker(optics.Secondary), back.Tracker(optics.Secondary), "said twice, it was as told after all")

	first, err := session.Apply(straight, event.Event{Kind: event.KindScrew, Is: event.SaysOtherWay, Screw: turns[0].Screw})
	require.NoError(t, err)
	assert.NotEqual(t, s.Tracker(optics.Secondary), first.Tracker(optics.Secondary), "the one that is named")

	for _, m := range []string{"A", "B", "C"} {
		if m == turns[0].Screw || m == turns[1].Screw {
			continue
		}
		_, err = session.Apply(straight, event.Event{Kind: event.KindScrew, Is: event.SaysOtherWay, Screw: m})
		assert.ErrorContains(t, err, "was not turned just now")
	}
	_, err = session.Apply(begun().line("4 12").State(), event.Event{Kind: event.KindScrew, Is: event.SaysOtherWay, Screw: "Z"})
	assert.Error(t, err)
}
