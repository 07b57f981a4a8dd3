package virtual

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"

	"spotward/optics"
)

func TestScrewLosesItsPlayOnAReversal(t *testing.T) {
	s := screw{from: -2, to: 2, slackAt: -9, play: 0.03}
	s.turn(0.5)
	assert.InDelta(t, 0.47, s.grip, 1e-12, "the first play goes before it grips")
	s.turn(-0.02)
	assert.InDelta(t, 0.47, s.grip, 1e-12)
	s.turn(-0.1)
	assert.InDelta(t, 0.38, s.grip, 1e-12)
	assert.InDelta(t, 0.03, s.lost(), 1e-12)
}

func TestScrewFaults(t *testing.T) {
	cases := []struct {
		name  string
		s     screw
		by    float64
		did   float64
		reach float64
		felt  Felt
	}{
		{"sound", screw{from: -1, to: 1, slackAt: -9}, 0.5, 0.5, 0.5, ""},
		{"seized", screw{from: -1, to: 1, slackAt: -9, ill: Seized}, 0.5, 0, 0, Stuck},
		{"worn", screw{from: -1, to: 1, slackAt: -9, ill: Worn}, 0.5, 0.5, 0, Stripped},
		{"grabbing, a little", screw{from: -1, to: 1, slackAt: -9, ill: Grabbing}, 0.06, 0.06, 0, Sticky},
		{"grabbing, enough", screw{from: -1, to: 1, slackAt: -9, ill: Grabbing}, 0.125, 0.125, 0.125, Sticky},
		{"at its end", screw{from: -1, to: 0.25, slackAt: -9}, 0.5, 0.25, 0.25, AtEnd},
		{"slack", screw{from: -1, to: 1, slackAt: -0.125}, -0.5, -0.5, -0.125, ""},
		{"loose", screw{from: -1, to: 1, slackAt: -9, loose: 0.1}, 0.25, 0.25, 0.25, ""},
	}
	for _, c := range cases {
		before := c.s.reach()
		did, felt := c.s.turn(c.by)
		assert.InDelta(t, c.did, did, 1e-12, c.name)
		assert.Equal(t, c.felt, felt, c.name)
		if c.name == "loose" {
			assert.InDelta(t, 0.15, c.s.reach()-before, 1e-12, "what it stood off does nothing")
			continue
		}
		assert.InDelta(t, c.reach, c.s.reach(), 1e-12, c.name)
	}
}

// onCircle returns a plate on n equally spaced screws of radius 10.
func onCircle(n int, boltMM float64) plate {
	p := plate{boltMM: boltMM, lean: 1}
	for i := range n {
		p.at = append(p.at, turned(10, 2*math.Pi*float64(i)/float64(n)))
	}
	return p
}

// One screw of three by +Δ: slope 2Δ/(3R) toward it, and Δ/3 in the middle.
// (+Δ, −Δ/2, −Δ/2): Δ/R and nothing. By elementary geometry.
func TestPlaneThroughThreeTips(t *testing.T) {
	p := onCircle(3, math.Inf(-1))
	p.seat([]float64{0.3, 0, 0})
	assert.InDelta(t, 0.02, p.tilt.X, 1e-12)
	assert.InDelta(t, 0, p.tilt.Y, 1e-12)
	assert.InDelta(t, 0.1, p.midMM, 1e-12)
	p.seat([]float64{0.3, -0.15, -0.15})
	assert.InDelta(t, 0.03, p.tilt.X, 1e-12)
	assert.InDelta(t, 0, p.midMM, 1e-12)
}

// A plate on four screws: an opposite pair is determinate, Δ/R; one alone rocks
// it up to 45° off the screw's own axis, to the side it leans to.
func TestFourScrewsRock(t *testing.T) {
	p := onCircle(4, math.Inf(-1))
	p.seat([]float64{0.2, 0, -0.2, 0})
	assert.InDelta(t, 0.02, p.tilt.X, 1e-12)
	assert.InDelta(t, 0, p.tilt.Y, 1e-12)
	for _, lean := range []float64{-1, 1} {
		p.lean = lean
		p.seat([]float64{0.2, 0, 0, 0})
		assert.InDelta(t, 0.01, p.tilt.X, 1e-12)
		assert.InDelta(t, lean*45, math.Atan2(p.tilt.Y, p.tilt.X)*180/math.Pi, 1e-9)
	}
}

// No screw ever stands inside the plate, and a plate that its bolt does not
// reach touches all three.
func TestPlateClearsItsScrews(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(3, 4).Draw(t, "screws")
		p := onCircle(n, math.Inf(-1))
		if rapid.Bool().Draw(t, "bolted") {
			p.boltMM = rapid.Float64Range(-0.3, 0.3).Draw(t, "bolt")
		}
		for range 4 {
			tips := make([]float64, n)
			for i := range tips {
				tips[i] = rapid.Float64Range(-0.5, 0.5).Draw(t, "tip")
			}
			p.seat(tips)
			touch := 0
			for i := range tips {
				off := p.offMM(tips, i)
				assert.GreaterOrEqual(t, off, -1e-9)
				if off < 1e-9 {
					touch++
				}
			}
			if p.midMM > p.boltMM {
				assert.GreaterOrEqual(t, touch, 3)
			}
		}
	})
}

// Held by its bolt with one screw eased, the plate does not follow that screw;
// taking up another takes it straight to where both turns put it.
func TestPairOnACentreBolt(t *testing.T) {
	p := onCircle(3, 0)
	p.seat([]float64{-0.2, 0, 0})
	assert.Equal(t, optics.Tube{}, p.tilt)
	p.seat([]float64{-0.2, 0.1, 0})
	half := p.tilt
	p.seat([]float64{-0.2, 0.2, 0})
	free := onCircle(3, math.Inf(-1))
	free.seat([]float64{-0.2, 0.2, 0})
	assert.InDelta(t, free.tilt.X, p.tilt.X, 1e-12)
	assert.InDelta(t, free.tilt.Y, p.tilt.Y, 1e-12)
	assert.InDelta(t, p.tilt.X/2, half.X, 1e-12, "half way along the same line")
	assert.InDelta(t, p.tilt.Y/2, half.Y, 1e-12)
}
