package session_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"spotward/optics"
	"spotward/optics/adviser"
	"spotward/session"
	"spotward/session/scope"
)

// A lock that does not ease is left alone, and so is the screw beside it: neither is
// told again, and the record says why.
func TestALockThatDoesNotEase(t *testing.T) {
	p := play(t, scope.Builtin()).line("routine", "card 10 40", "still", "4 20")
	for n := 0; n < 8 && p.State().Stage().ID == session.StageSecondary; n++ {
		line := "dead"
		if p.State().Ask().Face == optics.FaceSecondary {
			line = "two 4 14"
		}
		p.line(line)
	}
	eases := func(lock string) (told bool) {
		for _, m := range p.State().Told().Moves {
			told = told || m.Lock == lock
		}
		return told
	}
	require.True(t, eases("A") && eases("B") && eases("C"))
	p.line("lock B stuck")
	require.NotNil(t, p.State().Told())
	assert.True(t, eases("A") && eases("C"))
	for n := 0; n < 12 && p.State().Stage().ID != session.StagePutAway; n++ {
		if told := p.State().Told(); told != nil {
			assert.False(t, eases("B"), "the lock")
			for _, m := range told.Moves {
				assert.NotEqual(t, "B", m.Screw, "its screw")
			}
		}
		line := "4 2"
		if p.State().Ask().Face != optics.FaceTarget {
			line = "gone"
		}
		if p.State().Stage().ID == session.StageRetighten {
			line = "home even"
		}
		p.line(line)
	}
	assert.Equal(t, adviser.Stuck, p.State().Primary.Tracker.Said(1))
	assert.Contains(t, p.State().Record().Trouble, "primary lock B: stuck")
}
