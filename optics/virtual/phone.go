package virtual

import "math"

// Held is how somebody holds a phone over the rim, or behind the laser's face.
type Held struct {
	Hour    float64 // where over the rim, as a clock from the sky end
	RollRad float64 // turns the picture anticlockwise
	Seed    uint64  // of the picture's noise
}

// rollRad is how far a phone is held askew by, 1σ: 4° (by hand, from memory).
const rollRad = 0.07

// Phone returns how a phone is held for the n-th picture: from the side away from
// the spot, more or less, and never quite straight. Looking is not disturbed by it.
func (w *World) Phone(n int, spotHour float64) Held {
	c := newChance(w.seed, streamPhone, n)
	return Held{
		Hour:    math.Mod(spotHour+6+c.between(-1.5, 1.5)+12, 12),
		RollRad: rollRad * c.normal(),
		Seed:    c.Uint64(),
	}
}
