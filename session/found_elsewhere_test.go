package session_test

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"spotward/optics"
	"spotward/session"
	"spotward/session/event"
	"spotward/session/scope"
)

// A spot that is looked for is where it is found, whichever face was asked about.
func TestASpotIsFoundOnAnotherFace(t *testing.T) {
	lost := func() player {
		return play(t, scope.Builtin()).line("routine", "none", "still", "dead", "not there", "primary", "not there").at(session.StageRough, session.StepOnMouth)
	}
	p := lost().line("on the face 10 11")
	s := p.State()
	assert.True(t, s.OnTarget().Known)
	assert.InDelta(t, 11, s.OnTarget().At.At.Len(), 1e-6)

	p = lost().line("two 9 12").at(session.StageRough, session.StepOnTarget)
	assert.NotNil(t, p.State().Told(), "from there the way to the face is known")

	p = lost().line("home")
	assert.Equal(t, event.SawHome, p.State().OnTarget().Saw)

	lost().refuses("primary 4 12", "wanted here")
	p = play(t, scope.Builtin()).line("routine", "none", "still")
	p.refuses("on the face 10 11", "a reading on the primary is wanted here, not on the target")
	assert.Equal(t, optics.FacePrimary, p.State().Ask().Face)
}
