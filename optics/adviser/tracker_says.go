package adviser

import (
	"math"

	"spotward/optics"
)

// Says records what screw i turned out to do as it was turned by turns
// (clockwise positive; 0: as it was turned last): later advice keeps to it. One
// at its end, or free of what it pushes, goes no farther that way than where it
// stands.
func (k Tracker) Says(i int, s ScrewSays, turns float64) Tracker {
	k.says[i] = s
	if turns == 0 {
		turns = k.lastTo[i]
	}
	switch {
	case s != End && s != Free:
	case turns > 0:
		k.most[i] = k.travel[i]
	case turns < 0:
		k.least[i] = k.travel[i]
	}
	return k
}

// Said returns what screw i was last said to be, "" for nothing.
func (k Tracker) Said(i int) ScrewSays { return k.says[i] }

// Anew returns the belief with everything dropped that was thought of what the
// screws do: as before the first turn, on scope t. How far they went, and what
// they said, is kept, and where the spot is, with that much more doubt.
func (k Tracker) Anew(t optics.Telescope, doubt optics.Cov) Tracker {
	spot := k.Spot()
	fresh, _ := NewTracker(t, k.mirror, nil).Look(optics.Belief{At: spot.At, Cov: spot.Cov.Add(doubt)})
	fresh.travel, fresh.lastTo, fresh.lock = k.travel, k.lastTo, k.lock
	fresh.says, fresh.least, fresh.most = k.says, k.least, k.most
	return fresh
}

// stickyBite is the longest turn asked of a sticky screw.
const stickyBite = 0.25

// allows reports whether screw i can be turned by turns, after what it said: a
// stuck or stripped one not at all, a sticky one a little.
func (k Tracker) allows(i int, turns float64) bool {
	switch k.says[i] {
	case Stuck, Stripped:
		return turns == 0
	case Sticky:
		if math.Abs(turns) > stickyBite {
			return false
		}
	}
	to := k.travel[i] + turns
	return turns == 0 || (turns > 0 && to <= k.most[i]) || (turns < 0 && to >= k.least[i])
}

// allowsLever reports whether n turns of lever l are possible.
func (k Tracker) allowsLever(l lever, n float64) bool {
	a, b := l.turns(n)
	return k.allows(l.first, a) && (l.second < 0 || k.allows(l.second, b))
}

// farTravel is the net turns from which on a screw is thought to near its end;
// a turn beyond costs as much as farCost moves.
const (
	farTravel = 1.5
	farCost   = 0.3
)

// strain returns what n turns of lever l cost in screws driven far from where
// they began, in moves.
func (k Tracker) strain(l lever, n float64) float64 {
	cost := func(i int, turns float64) float64 {
		before, after := math.Abs(k.travel[i]), math.Abs(k.travel[i]+turns)
		if after <= farTravel || after < before {
			return 0
		}
		return farCost * (after - math.Max(before, farTravel))
	}
	a, b := l.turns(n)
	total := cost(l.first, a)
	if l.second >= 0 {
		total += cost(l.second, b)
	}
	return total
}

// surprise widens what the screw or lock turned last is thought to do: a
// repeated reading is not where that can have put the spot.
func (k Tracker) surprise() Tracker {
	if k.last == nil {
		return k
	}
	at := screwAt(k.last.Screw)
	if k.last.Lock {
		at = lockAt(k.cell.Screws, k.last.Screw)
	}
	k.bank = eachHypothesis(k.bank, func(g *gauss) { g.widen(at, optics.Round(g.at(at).Len()/2)) })
	return k
}
