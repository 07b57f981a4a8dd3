package adviser

import (
	"cmp"
	"math"
	"slices"

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
	// AsFolded: it is asked for whether there is a move worth making, and a fold hangs
	// on it, so that it is answered as it was when the journals were written: on a
	// coarser grid, and with moves that lead away less dear.
	AsFolded bool
}

// FinestTurns is the least step of a hand: half a touch, 7 mm at the end of a long
// key, which hands make to a hundredth of a turn. With a thirty-second for the least
// most moves that led away were such: at a secondary it is 4 to 17 mm.
const FinestTurns = 1.0 / 64

// mostTurns is the longest single move.
const mostTurns = 2

// grid is the amounts a hand can make, in turns: each step is good up to its end.
type grid []struct{ upTo, step float64 }

// grids are two of them: what is told, by half touches up to a sixteenth, by
// thirty-seconds up to a quarter, by sixteenths up to a turn, then by eighths and
// quarters; and the coarser one of Options.AsFolded.
var (
	toldGrid   = grid{{1.0 / 16, FinestTurns}, {1.0 / 4, foldedTurns}, {1, 1.0 / 16}, {1.5, 1.0 / 8}, {mostTurns, 1.0 / 4}}
	foldedGrid = grid{{1.0 / 16, foldedTurns}, {1, 1.0 / 16}, {1.5, 1.0 / 8}, {mostTurns, 1.0 / 4}}
)

// foldedTurns is the least step where a fold asks.
const foldedTurns = 1.0 / 32

// amounts are all of them, smallest first.
func (s grid) amounts() []float64 {
	var all []float64
	n := 0.0
	for _, s := range s {
		for n+s.step <= s.upTo {
			n += s.step
			all = append(all, n)
		}
	}
	return all
}

// on returns the amount of the grid nearest to turns, 0 among them.
func (s grid) on(turns float64) float64 {
	n := math.Abs(turns)
	for _, s := range s {
		if n <= s.upTo {
			return math.Copysign(math.Round(n/s.step)*s.step, turns)
		}
	}
	return math.Copysign(mostTurns, turns)
}

// least returns the smallest amount.
func (s grid) least() float64 { return s[0].step }

// some is on, but never nothing.
func (s grid) some(turns float64) float64 {
	if n := s.on(turns); n != 0 {
		return n
	}
	return math.Copysign(s.least(), turns)
}

// OnGrid returns the amount nearest to turns that a hand can make, 0 among them.
func OnGrid(turns float64) float64 { return toldGrid.on(turns) }

// Advise returns the next move toward g: the one after which the fewest moves
// are expected, over what is believed of spot and screws, one look and the best
// next move ahead. It returns false where the spot is thought to be inside g
// already and there is nothing to do; Tracker.Within says how sure that is.
func Advise(k Tracker, g optics.Goal, o Options) (Advice, bool) {
	if k.Seen() && k.inside(g) {
		return Advice{}, false
	}
	c := newChooser(k, g, o.AsFolded)
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
	slices.SortStableFunc(cs, func(a, b candidate) int { return cmp.Compare(rounded(a.cost), rounded(b.cost)) })
}
