package session

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"spotward/optics"
	"spotward/optics/adviser"
	"spotward/session/event"
	"spotward/session/scope"
)

// primaryAt is a session whose primary's spot was read at (x, y), with its locks
// eased.
func primaryAt(t *testing.T, x, y float64) Work {
	t.Helper()
	sc := scope.Builtin()
	s := New(sc, event.Known{}, nil)
	s.primary.tracker, _ = s.primary.tracker.Look(optics.Belief{At: optics.Tube{X: x, Y: y}, Cov: optics.Round(0.7)})
	s.locks.eased = [4]float64{0.25, 0.25, 0.25}
	return s
}

// turnInVain turns a screw of the primary and looks: the spot stands where it
// stood, but for what eyes err by.
func turnInVain(s *Work, screw int, turns, err float64) {
	mv := adviser.Move{Mirror: optics.Primary, Screw: screw, Turns: turns}
	s.since.last = lastTurn{optics.Primary, s.primary.tracker, []adviser.Move{mv}}
	s.primary.tracker = s.primary.tracker.Turn([]adviser.Move{mv}, adviser.ByAmount)
	z := optics.Belief{At: optics.Tube{X: 9 + err, Y: 0}, Cov: optics.Round(0.7)}
	s.primary.tracker, _ = s.primary.tracker.Look(z)
	s.noteStill(optics.Primary, z)
}

// A screw that is turned on and on by a little, and moves nothing, is found out by
// what the turns come to: none of them says so by itself. Its lock is eased; what
// is thought of the screw is not worn down meanwhile.
func TestTurnedOnAndOn(t *testing.T) {
	s := primaryAt(t, 9, 0)
	per := s.primary.tracker.PerTurn(0).At.Len()
	n := 0
	for ; len(s.locks.blocked) == 0; n++ {
		require.Less(t, n, 8, "it is turned on and on")
		turnInVain(&s, 0, 0.125, []float64{0.4, -0.3, 0.2}[n%3])
	}
	assert.Greater(t, n, 1)
	assert.InDelta(t, per, s.primary.tracker.PerTurn(0).At.Len(), per/10)
}

// Half a turn in vain is enough; and a slack screw that is eased has its end there:
// the others take its part.
func TestHalfATurnInVain(t *testing.T) {
	s := primaryAt(t, 9, 0)
	turnInVain(&s, 1, -0.5, 0.3)
	assert.Empty(t, s.locks.blocked, "what is eased is not held by its lock")
	assert.Equal(t, adviser.End, s.primary.tracker.Said(1))
	a, more := adviser.Advise(s.primary.tracker, optics.Goal{InsideMM: 1}, adviser.Options{})
	require.True(t, more)
	for _, m := range a.Moves {
		assert.False(t, m.Screw == 1 && m.Turns < 0)
	}
}
