package optics

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"
)

func holeOf(radiusMM float64) Telescope {
	return Telescope{Target: Target{HoleRadiusMM: radiusMM}}
}

// By itself an even glow is half a millimetre an axis, a brighter side 0.6 of the
// hole's radius that way: what a halo that was worked out says. After a touch toward
// the middle a side is nearer than that.
func TestWhatTheGlowSays(t *testing.T) {
	tel, side := holeOf(3), Tube{X: 0, Y: -2}
	even := tel.InHole(nil, nil)
	near(t, Tube{}, even.At, 1e-9)
	assert.InDelta(t, EvenMM, even.Cov.Sigma(), 0.06)
	first := tel.InHole(nil, &side)
	near(t, Tube{Y: -1.8}, first.At, 0.15)
	assert.InDelta(t, 0.6, first.Cov.Sigma(), 0.06)
	touched := tel.InHole(&Belief{Cov: Round(0.6)}, &side)
	assert.InDelta(t, 1.25, touched.At.Len(), 0.2)
	assert.Less(t, touched.Cov.Sigma(), first.Cov.Sigma())
}

// Whatever was believed before: the spot is in the hole, on the side that is said,
// no surer than what was seen and believed, and turned with them.
func TestTheGlowIsSound(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		tel := holeOf(rapid.Float64Range(1.5, 5).Draw(t, "hole"))
		before := Belief{At: anyTube(t, 6), Cov: Round(rapid.Float64Range(0.05, 6).Draw(t, "sigma"))}
		side := Tube{X: 1}
		got := tel.InHole(&before, &side)
		assert.LessOrEqual(t, got.At.Len(), tel.Target.HoleRadiusMM)
		assert.Positive(t, got.At.X)
		assert.LessOrEqual(t, got.Cov.Sigma(), tel.Target.HoleRadiusMM)
		assert.Positive(t, got.Cov.XX*got.Cov.YY-got.Cov.XY*got.Cov.XY)
		turned := Belief{At: Tube{-before.At.Y, before.At.X}, Cov: before.Cov}
		back := tel.InHole(&turned, &Tube{Y: 1})
		assert.InDelta(t, got.At.X, back.At.Y, 1e-6)
		assert.InDelta(t, got.At.Y, -back.At.X, 1e-6)
		assert.False(t, math.IsNaN(tel.InHole(&before, nil).At.X))
	})
}
