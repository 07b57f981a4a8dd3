package adviser

import (
	"math"
	"sort"

	"spotward/optics"
)

// Options says how the person works.
type Options struct {
	Whole    bool // all screws before the next look
	Watching bool // somebody watches the spot while the screw is turned
	// Ways: who watches can say which way the spot sets off (see Tracker.Went). A
	// move whose way is a guess then begins with a touch: Advice.Touch.
	Ways bool
	// Legs: two that are watched, one after the other, in one advice, where both
	// ways are known.
	Legs bool
	// LeastMM: near its goal the spot must be expected to come nearer by so much
	// for a move to be told.
	LeastMM float64
}

// steps are the amounts a hand can make, in turns: FinestTurns and its double and
// threefold, thirty-seconds up to a quarter, sixteenths up to a turn, then eighths
// and quarters. Each step is good up to its end.
var steps = [...]struct{ upTo, step float64 }{{1.0 / 16, FinestTurns}, {1.0 / 4, 1.0 / 32}, {1, 1.0 / 16}, {1.5, 1.0 / 8}, {mostTurns, 1.0 / 4}}

// FinestTurns is the least step of a hand: half a touch, 7 mm at the end of a long
// key, which hands make to a hundredth of a turn. With a thirty-second for the least
// most moves that led away were such: at a secondary it is 4 to 17 mm.
const FinestTurns = 1.0 / 64

// mostTurns is the longest single move.
const mostTurns = 2

// amounts are all of them, smallest first.
var amounts = allAmounts()

func allAmounts() []float64 {
	var all []float64
	n := 0.0
	for _, s := range steps {
		for n+s.step <= s.upTo {
			n += s.step
			all = append(all, n)
		}
	}
	return all
}

// OnGrid returns the amount nearest to turns that a hand can make, 0 among
// them.
func OnGrid(turns float64) float64 {
	n := math.Abs(turns)
	for _, s := range steps {
		if n <= s.upTo {
			return math.Copysign(math.Round(n/s.step)*s.step, turns)
		}
	}
	return math.Copysign(mostTurns, turns)
}

// Advise returns the next move toward g: the one after which the fewest moves
// are expected, over what is believed of spot and screws, one look and the best
// next move ahead. It returns false where the spot is thought to be inside g
// already and there is nothing to do; Tracker.Within says how sure that is.
func Advise(k Tracker, g optics.Goal, o Options) (Advice, bool) {
	if k.Seen() && k.inside(g) {
		return Advice{}, false
	}
	c := newChooser(k, g)
	if o.Whole {
		if both := c.bestWhole(); len(both) > 0 {
			if a := c.whole(both); len(a.Moves) > 0 {
				return a, true
			}
		}
	}
	if o.Watching {
		if l, found := c.bestLeg(); found {
			if !c.worthIt(l.lever, o.LeastMM, func(p *particle) optics.Tube { return l.stopped(p.off, p.per[l.lever], p.err1) }) {
				return Advice{}, false
			}
			a := c.watched(l)
			if o.Legs && !c.wayUnknown(l.lever) {
				c.addLeg(l, &a)
			}
			a.Touch = o.Ways && c.wayGuessed(l.lever)
			return a, true
		}
	}
	best := c.best()
	if !c.worthIt(best.lever, o.LeastMM, func(p *particle) optics.Tube {
		return p.moved(best.lever, c.net(best.lever, best.turns), p.err1, p.least)
	}) {
		return Advice{}, false
	}
	return c.advice(best), true
}

// inside reports whether there is nothing to do: the spot is thought to be in
// the goal, or so near its edge that eyes cannot tell.
func (k Tracker) inside(g optics.Goal) bool {
	return k.Spot().At.Sub(g.At).Len() <= g.InsideMM || k.Within(g) > surelyInside
}

// surelyInside is how certain that must be.
const surelyInside = 0.97

func (c *chooser) advice(a candidate) Advice {
	moves := c.ls[a.lever].moves(c.k.mirror, a.turns)
	net := c.net(a.lever, a.turns)
	at := c.goal.At.Add(c.mean).Add(c.likely[a.lever].Scale(net))
	moves[len(moves)-1].Stop = &optics.Stop{At: at, As: optics.StopPoint}
	group := GroupOne
	if len(moves) > 1 {
		group = GroupPair
	}
	return Advice{
		Group: group, Moves: moves, After: at,
		Trust:    c.trust(func(p *particle) optics.Tube { return p.moved(a.lever, net, 0, 0) }),
		Learning: c.wayUnknown(a.lever),
	}
}

// rounded keeps the choice between equals from hanging on the last digits.
func rounded(v float64) float64 { return math.Round(v*1e6) / 1e6 }

func sortCandidates(cs []candidate) {
	sort.SliceStable(cs, func(i, j int) bool { return rounded(cs[i].cost) < rounded(cs[j].cost) })
}
