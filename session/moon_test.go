package session

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"spotward/optics"
	"spotward/session/event"
	"spotward/session/scope"
)

// No event names a mirror that there is not.
func TestThereAreTwoMirrors(t *testing.T) {
	sc := scope.Builtin()
	s, err := Apply(State{}, event.Event{Kind: event.KindBegin, ID: "x", Scope: &sc})
	require.NoError(t, err)
	for _, ev := range []event.Event{
		{Kind: event.KindScrew, Mirror: "moon", Screw: "A", Is: event.SaysStuck},
		{Kind: event.KindTurned, Turned: []optics.Turn{{Mirror: "moon", Screw: "A", Turns: 1}}},
	} {
		_, err := Apply(s, ev)
		assert.EqualError(t, err, `"moon" is no mirror: expected primary or secondary`)
	}
}
