package adviser

import (
	"math"

	"spotward/optics"
)

// Beyond returns the belief after the face showed no spot, so that it is more
// than mm from the middle.
func (k Tracker) Beyond(mm float64) Tracker {
	out := make([]hypothesis, len(k.bank))
	left := 0.0
	for i, h := range k.bank {
		at, c := h.g.at(0), h.g.cov(0)
		outside := math.Max(1-optics.Belief{At: at, Cov: c}.ChanceWithin(mm), unforeseen)
		left += h.weight * outside
		h.weight *= outside
		if n := at.Len(); n < mm && n > 0 {
			// What is left of a bell that is cut off lies just beyond the cut.
			h.g = h.g.clone()
			out := make([]float64, h.g.n)
			out[0], out[1] = at.X/n, at.Y/n
			h.g.tellThat(out, mm+math.Sqrt(c.Sigma()), mm/3)
		}
		out[i] = h
	}
	k.bank = pruned(out)
	if left < 3*unforeseen {
		k = k.Shift(optics.Round(mm))
	}
	return k
}
