package session_test

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"spotward/session"
	"spotward/session/scope"
)

// A spot that is nowhere is not asked for without end: the scope is made safe, and
// that is the reason.
func TestASpotThatIsNowhereEnds(t *testing.T) {
	p := play(t, scope.Builtin()).line("routine", "none", "still", "4 60")
	n := 0
	for ; p.State().Stage().ID != session.StageStopping && n < 12; n++ {
		p.line("gone")
	}
	assert.Equal(t, session.StageStopping, p.State().Stage().ID)
	assert.Less(t, n, 8)
	assert.Contains(t, p.State().Ask().Say, "not on the primary")
}
