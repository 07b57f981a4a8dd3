package mirrors

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
	s.Primary.Tracker, _ = s.Primary.Tracker.Look(optics.Belief{At: optics.Tube{X: x, Y: y}, Cov: optics.Round(0.7)})
	s.Locks.Eased = [4]float64{0.25, 0.25, 0.25}
	return s
}

// turnInVain turns a screw of the primary and looks: the spot stands where it
// stood, but for what eyes err by.
func turnInVain(s *Work, screw int, turns, err float64) {
	mv := adviser.Move{Mirror: optics.Primary, Screw: screw, Turns: turns}
	s.Since.last = lastTurn{optics.Primary, s.Primary.Tracker, []adviser.Move{mv}}
	s.Primary.Tracker = s.Primary.Tracker.Turn([]adviser.Move{mv}, adviser.ByAmount)
	z := optics.Belief{At: optics.Tube{X: 9 + err, Y: 0}, Cov: optics.Round(0.7)}
	s.Primary.Tracker, _ = s.Primary.Tracker.Look(z)
	s.noteStill(optics.Primary, z)
}

// A screw that is turned on and on by a little, and moves nothing, is found out by
// what the turns come to: none of them says so by itself. Its lock is eased; what
// is thought of the screw is not worn down meanwhile.
func TestTurnedOnAndOn(t *testing.T) {
	s := primaryAt(t, 9, 0)
	per := s.Primary.Tracker.PerTurn(0).At.Len()
	n := 0
	for ; len(s.Locks.blocked) == 0; n++ {
		require.Less(t, n, 8, "it is turned on and on")
		turnInVain(&s, 0, 0.125, []float64{0.4, -0.3, 0.2}[n%3])
	}
	assert.Greater(t, n, 1)
	assert.InDelta(t, per, s.Primary.Tracker.PerTurn(0).At.Len(), per/10)
}

// Half a turn in vain is enough; and a slack screw that is eased has its end there:
// the others take its part.
func TestHalfATurnInVain(t *testing.T) {
	s := primaryAt(t, 9, 0)
	turnInVain(&s, 1, -0.5, 0.3)
	assert.Empty(t, s.Locks.blocked, "what is eased is not held by its lock")
	assert.Equal(t, adviser.End, s.Primary.Tracker.Said(1))
	a, more := adviser.Advise(s.Primary.Tracker, optics.Goal{InsideMM: 1}, adviser.Options{})
	require.True(t, more)
	for _, m := range a.Moves {
		assert.False(t, m.Screw == 1 && m.Turns < 0)
	}
}
