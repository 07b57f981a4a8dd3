package adviser

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"spotward/optics"
)

// The ladder is what it takes those who know what the screws do, with trained
// hands and eyes.
func TestTheLadder(t *testing.T) {
	if testing.Short() {
		t.Skip("of fewer starts nothing can be told")
	}
	starts := usually(12, 24)
	ladder := newLadder()
	for _, radii := range []float64{0.5, 1, 1.5, 2, 3, 4, 6, 8, 12, 16} {
		moves := 0
		for n := range starts {
			moves += knowing(uint64(n), radii)
		}
		assert.InDelta(t, float64(moves)/float64(starts), ladder.at(radii*radii), 0.4, "%g radii of the goal", radii)
	}
}

// knowing brings the primary's spot home from so many radii of what counts as
// home, and returns in how many moves.
func knowing(n uint64, radii float64) int {
	w := newWorld(n, 3, trained)
	g := optics.Goal{InsideMM: 2}
	home := g.InsideMM + optics.EyesMM/2
	w.place(optics.Tube{}, w.polar(radii*home, 2.4*float64(n)))
	v := visit{trial{hands: trained}, w, optics.Primary, g, NewTracker(w.scope, optics.Primary, w.response(optics.Primary)), &outcome{}, 0}
	v.look()
	for looks := 0; looks < 12 && v.made < 12 && v.off() > home; looks++ {
		if a, more := Advise(v.k, g, Options{}); more {
			v.make(a, g)
			v.made++
		}
		v.look()
	}
	return v.made
}
