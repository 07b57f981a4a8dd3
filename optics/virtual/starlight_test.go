package virtual

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/spatial/r3"
	"pgregory.net/rapid"

	"spotward/optics"
)

// The way of the star's light, sent back from the screen by a laser that stands
// there, is the trace's: past the same point and out along the star's direction.
func TestStarlightIsTheTraceSentBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		w := NewWith(Builtin(), Setup{Faults: Faults{
			SpotMM: rapid.Float64Range(0, 30).Draw(t, "spot"), ReturnMM: rapid.Float64Range(0, 15).Draw(t, "return"),
			SecondarySlipMM: rapid.Float64Range(-3, 3).Draw(t, "slip"),
		}}, rapid.Uint64Range(0, 999).Draw(t, "seed"))
		racked := rapid.SampledFrom([]float64{-3, -0.5, 0.5, 3}).Draw(t, "racked")
		light := w.starlight(racked)
		r, rad := rapid.Float64Range(20, 120).Draw(t, "r"), rapid.Float64Range(0, 2*math.Pi).Draw(t, "rad")
		q := r3.Vec{X: r * math.Cos(rad), Y: r * math.Sin(rad), Z: 1100}
		end, other := light.past(q), w.starlight(racked+100).past(q) // two places of the ray give its slope
		scope, p := w.real, w.pose()
		scope.HoleFromAxisMM = light.screenMM
		p.Laser = optics.Laser{
			OffsetZ: end.X, OffsetY: end.Y,
			SlopeZ: (end.X - other.X) / 100, SlopeY: (end.Y - other.Y) / 100,
		}
		s, err := scope.Trace(p)
		require.NoError(t, err)
		up := r3.Unit(r3.Sub(s.Beam[3], s.Beam[2]))
		assert.Less(t, r3.Norm(r3.Add(up, light.down)), 1e-9)
		off := r3.Sub(q, s.Beam[2])
		assert.Less(t, r3.Norm(r3.Sub(off, r3.Scale(r3.Dot(off, up), up))), 1e-6)
	})
}

// The star stands in the middle of the field: in focus its light comes together
// there, but for coma, and its ray to the vertex goes right through.
func TestAStarIsInTheMiddleOfTheField(t *testing.T) {
	w := NewWith(Builtin(), Setup{Faults: Faults{ReturnMM: 3}}, 7)
	light := w.starlight(0)
	assert.Less(t, light.from(light.vertex).Len(), 1e-9)
	e, f, r := w.Truth().ErrorMM, w.real.FocalLengthMM, w.real.ApertureMM/2
	for _, at := range light.disc() {
		assert.Less(t, at.Len(), 1.1*3./4*e*r*r/(f*f))
	}
	// the star stands at 2·e/f from the tube's axis
	assert.InDelta(t, 2*e/f, math.Hypot(light.down.X, light.down.Y), 1e-7)
}
