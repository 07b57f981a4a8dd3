package virtual

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
)

// w(z) = w₀√(1 + (z/z_R)²), z_R = πw₀²/λ (Siegman, Lasers; Saleh and Teich, from
// memory). The numbers were worked out apart from this program, for w₀ 1 and
// 1.5 mm at 650 nm and distances in m.
func TestBeamSpreads(t *testing.T) {
	cases := []struct{ w0, m, w float64 }{
		{1, 0, 1}, {1, 1, 1.0212}, {1, 1.2, 1.0304}, {1, 2.4, 1.1165}, {1, 5, 1.4388},
		{1.5, 1, 1.5063}, {1.5, 1.2, 1.5091}, {1.5, 2.4, 1.5361}, {1.5, 5, 1.6510},
	}
	for _, c := range cases {
		assert.InDelta(t, c.w, waist(2*c.w0).on(c.m*1000).width()/2, 6e-5, "w₀ %v at %v m", c.w0, c.m)
	}
}

// A mirror brings a beam to a waist of about λf/(πw) near its focus.
func TestMirrorFocusesTheReturn(t *testing.T) {
	q := waist(2).on(1200).focused(1200).on(1200)
	assert.InDelta(t, wavelengthMM*1200/(math.Pi*1), q.width()/2, 0.01)
	assert.Less(t, q.width(), waist(2).on(2400).width()/3, "not the width it would have without the mirror")
}

// 1 − exp(−2r²/w²) of the power lies within r: 0.86466 within w (Saleh and
// Teich, from memory).
func TestShareWithin(t *testing.T) {
	assert.InDelta(t, 0.86466, shareWithin(2, 0, 1), 0.02)
	assert.InDelta(t, 1, shareWithin(0.5, 0, 3), 1e-9)
	assert.InDelta(t, 0.5, shareWithin(0.5, 3, 3), 0.05, "on the rim, half of it")
	assert.Zero(t, shareWithin(0.5, 5, 3))
	was := 1.0
	for off := 0.0; off < 5; off += 0.05 {
		share := shareWithin(1, off, 3)
		assert.LessOrEqual(t, share, was+1e-12)
		was = share
	}
}
