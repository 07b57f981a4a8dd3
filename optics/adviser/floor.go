package adviser

import (
	"math"
	"slices"

	"spotward/optics"
)

// FloorMM returns how near to a goal the best of hands brings the spot of this
// mirror, root mean square: the least step they can make, their error in it, and
// what play leaves open, of the two levers that move it least. 0 where nothing is
// known of them. A fold hangs on it.
func (k Tracker) FloorMM() float64 {
	perTurn := math.Hypot(math.Hypot(foldedTurns/math.Sqrt(12), turnLeastSpread), lostSpread)
	var miss []float64
	for _, l := range levers(k.cell) {
		if k.wayOpen(l) < unknownWay {
			miss = append(miss, perTurn*k.Likely(l.moves(k.mirror, 1)).Len())
		}
	}
	if len(miss) < 2 {
		return 0
	}
	slices.Sort(miss)
	return math.Hypot(miss[0], miss[1])
}

// wayOpen returns the circular spread of the way lever l moves the spot.
func (k Tracker) wayOpen(l lever) float64 {
	rad := k.AsideRad(l.moves(k.mirror, 1))
	return 1 - math.Exp(-rad*rad/2)
}

// worthIt reports whether a move by lever l to where after takes each particle is
// expected to bring the spot nearer by leastMM, where it cannot be told from its
// goal. A move that teaches what a screw does always is.
func (c *chooser) worthIt(l int, leastMM float64, after func(*particle) optics.Tube) bool {
	if leastMM <= 0 || c.mean.Len() > c.goal.InsideMM+optics.EyesMM || c.wayUnknown(l) {
		return true
	}
	gain := 0.0
	for i := range c.cloud {
		p := &c.cloud[i]
		gain += p.off.Len() - after(p).Len()
	}
	return gain/particles >= leastMM
}

// LooksSince returns how often the spot was read since a screw was turned.
func (k Tracker) LooksSince() int { return k.stillLooks }
