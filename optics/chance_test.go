package optics

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"
)

// A round error about the middle: P(r) = 1 − exp(−r²/2σ²), Rayleigh.
func TestChanceOfARoundError(t *testing.T) {
	for _, sigma := range []float64{0.01, 0.5, 3, 40} {
		b := Belief{Cov: Round(sigma)}
		for _, r := range []float64{0.1, 1, 2, 3} {
			assert.InDelta(t, 1-math.Exp(-r*r/2), b.ChanceWithin(r*sigma), 2e-3)
		}
		assert.InDelta(t, 2.4477*sigma, b.WithinMM(0.95), 3e-3*sigma)
	}
}

func TestChanceAgainstDraws(t *testing.T) {
	r := rand.New(rand.NewPCG(5, 6))
	for _, tt := range []struct{ at, axis Tube }{
		{Tube{}, Tube{2, 0.3}}, {Tube{1, 1}, Tube{0.5, 0.5}}, {Tube{0.2, -3}, Tube{2, 1}}, {Tube{4, 0}, Tube{1, 0.05}},
	} {
		b := Belief{At: tt.at, Cov: Polar(Tube{3, 4}, tt.axis.X, tt.axis.Y)}
		const n = 40000
		inside := 0
		for range n {
			along, across := tt.axis.X*r.NormFloat64(), tt.axis.Y*r.NormFloat64()
			at := tt.at.Add(Tube{0.6*along - 0.8*across, 0.8*along + 0.6*across})
			if at.Len() <= 1.5 {
				inside++
			}
		}
		assert.InDelta(t, float64(inside)/n, b.ChanceWithin(1.5), 0.01, "%v", tt)
	}
}

func TestChanceIsSane(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		along := rapid.Float64Range(0, 20).Draw(t, "along")
		b := Belief{At: anyTube(t, 20), Cov: Polar(anyTube(t, 1), along, rapid.Float64Range(0, 20).Draw(t, "across"))}
		mm := rapid.Float64Range(0.01, 30).Draw(t, "mm")
		here, farther := b.ChanceWithin(mm), b.ChanceWithin(1.1*mm)
		assert.GreaterOrEqual(t, here, 0.0)
		assert.LessOrEqual(t, farther, 1.0)
		assert.LessOrEqual(t, here, farther+1e-2)
		within := b.WithinMM(0.95)
		assert.InDelta(t, 0.95, b.ChanceWithin(within+1e-3), 0.06)
		assert.GreaterOrEqual(t, within+0.01, b.At.Len())
	})
	assert.Zero(t, Belief{}.ChanceWithin(0))
	assert.InDelta(t, 1, Belief{}.ChanceWithin(0.1), 1e-6)
	assert.InDelta(t, 0, Belief{At: Tube{X: 1}}.ChanceWithin(0.9), 1e-6)
}

// The claimed bound holds in 95 of 100 where the spots may stand anywhere, and
// in more of them where most stand near home.
func TestTheClaimedBoundHolds(t *testing.T) {
	r := rand.New(rand.NewPCG(7, 8))
	scope := tenInch()
	noise := func(mm float64) Tube { return Tube{mm * r.NormFloat64(), mm * r.NormFloat64()} }
	for _, tt := range []struct{ spreadMM, low, high float64 }{{30, 0.935, 0.965}, {2, 0.95, 1}} {
		const n = 2000
		held, claimed, inside := 0.0, 0.0, 0.0
		for range n {
			p, back := noise(tt.spreadMM), noise(tt.spreadMM)
			seenP := Belief{p.Add(noise(0.7)), Round(0.7)}
			seenT := Belief{back.Add(noise(1)), Round(1)}
			e := scope.AxisError(p, back).Len()
			known := scope.AxisErrorBelief(seenP, seenT)
			if e <= known.WithinMM(0.95) {
				held += 1. / n
			}
			claimed += known.ChanceWithin(tt.spreadMM) / n
			if e <= tt.spreadMM {
				inside += 1. / n
			}
		}
		assert.GreaterOrEqual(t, held, tt.low)
		assert.LessOrEqual(t, held, tt.high)
		assert.LessOrEqual(t, claimed, inside+0.03, "never claims more than it holds")
	}
}
