package optics

import "math"

// Look returns the belief after a reading z, and whether z is where the turns
// since the last reading can have put the spot. A doubted reading is taken at
// little weight until it is confirmed or another one is read.
func (k Tracker) Look(z Belief) (Tracker, Doubt) {
	expected := k.Spot()
	from := k.bank
	if k.before != nil {
		from, k.before = k.before, nil
	}
	doubt := Doubt{Expected: expected, Chances: 1}
	if k.seen {
		doubt.Chances = chance(from, z)
		doubt.Doubted = doubt.Chances < doubtBelow
	}
	if doubt.Doubted {
		k.before = from
		z.Cov = z.Cov.Scale(3)
	}
	k.bank, _ = seeAll(from, z)
	k.seen = true
	return k, doubt
}

// Confirm returns the belief after the doubted reading was repeated: it is
// taken, and what was thought before is widened to make room for it.
func (k Tracker) Confirm(z Belief) Tracker {
	from := k.bank
	if k.before != nil {
		from, k.before = k.before, nil
	}
	room := z.At.Sub(mixed(from, 0).At)
	k.bank = eachHypothesis(from, func(g *gauss) {
		g.widen(0, Round(room.Len()/2))
	})
	k.bank, _ = seeAll(k.bank, z)
	k.seen = true
	return k
}

// chance returns how often a reading is as far out as z or farther, 0 to 1.
func chance(bank []hypothesis, z Belief) float64 {
	p := 0.0
	for i := range bank {
		h := &bank[i]
		p += h.weight * math.Exp(-mahalanobis2(z.At.Sub(h.g.at(0)), z.Cov.Add(h.g.cov(0)))/2)
	}
	return p
}

// mahalanobis2 returns dᵀ·c⁻¹·d.
func mahalanobis2(d Tube, c Cov) float64 {
	det := c.XX*c.YY - c.XY*c.XY
	return (d.X*d.X*c.YY - 2*d.X*d.Y*c.XY + d.Y*d.Y*c.XX) / det
}
