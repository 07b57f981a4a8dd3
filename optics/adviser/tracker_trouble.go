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

// surprise names why a repeated reading is not where the last turn can have put
// the spot, and widens what that screw or lock is thought to do.
func (k Tracker) surprise(z optics.Belief) Tracker {
	if k.last == nil {
		return k
	}
	m := *k.last
	meant, went := k.expected.Sub(k.from), z.At.Sub(k.from)
	kind, at := LabelSlipped, screwAt(m.Screw)
	switch {
	case m.Lock:
		kind, at = LockBiting, lockAt(k.cell.Screws, m.Screw)
	case went.Len() < meant.Len()/4:
		kind = OutOfTravel
	}
	k.trouble = append(append([]Trouble(nil), k.trouble...), Trouble{kind, m.Screw})
	k.bank = eachHypothesis(k.bank, func(g *gauss) { g.widen(at, optics.Round(g.at(at).Len()/2)) })
	return k
}

// Trouble returns what is wrong with the screws: what they said, what surprised,
// and what no longer agrees.
func (k Tracker) Trouble() []Trouble {
	out := append([]Trouble(nil), k.trouble...)
	for i := range k.cell.Screws {
		switch k.says[i] {
		case End, Stuck, Stripped, Free:
			out = append(out, Trouble{OutOfTravel, i})
		case Slipped:
			out = append(out, Trouble{LabelSlipped, i})
		}
	}
	if k.twisting() {
		out = append(out, Trouble{Twisting, -1})
	}
	if k.looks >= 4 && k.poorlyKnown() {
		out = append(out, Trouble{PoorlyKnown, -1})
	}
	return out
}

// twisting reports whether the three responses surely do not sum to zero, as
// they must for a plate on three screws.
func (k Tracker) twisting() bool {
	if k.cell.Screws != 3 {
		return false
	}
	var sum optics.Tube
	var c optics.Cov
	size := 0.0
	bank := likeliest(k.bank)
	for i := range 3 {
		r := mixed(bank, screwAt(i))
		sum, c, size = sum.Add(r.At), c.Add(r.Cov), size+r.At.Len()/3
	}
	return sum.Len() > 0.45*size && sum.Len() > 3*c.Sigma()
}

// poorlyKnown reports whether fewer than two screws are known to half of what
// they do.
func (k Tracker) poorlyKnown() bool {
	known := 0
	for i := range k.cell.Screws {
		if r := k.PerTurn(i); r.Cov.Sigma() < r.At.Len()/2 {
			known++
		}
	}
	return known < 2
}
