package desk_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"spotward/optics"
	"spotward/optics/virtual"
	"spotward/session"
	"spotward/session/event"
)

// Where the return spot was found is reckoned from the first sight of it, against the
// trace of the telescope as it stood; what was turned first must not hide it.
func TestWhereTheReturnSpotWasFoundIsReckoned(t *testing.T) {
	reckoned, far := 0, 0
	for seed := range seeds(160) {
		w := begin(t, nil, virtual.Usual, 300+seed)
		lit := w.Bench.World().Clone()
		lit.LaserOn(true)
		was := lit.Sight(optics.FaceTarget).Seen
		for n := 0; w.State().Found.T.Saw != event.SawComputed && w.State().Stage().ID != session.StageHome && n < 60; n++ {
			typeDeaf(t, w)
		}
		found := w.State().Record().Found.T
		if found == nil || found.Saw != event.SawComputed {
			continue
		}
		reckoned++
		require.Positive(t, found.Sigma)
		if math.Hypot(found.Right-was.Right, found.Up-was.Up) > 3*math.Sqrt2*found.Sigma {
			far++
		}
	}
	assert.Positive(t, reckoned)
	assert.LessOrEqual(t, far, reckoned/10)
}
