package adviser

import (
	"math"

	"spotward/optics"
)

// How says by what a hand knew when to stop turning.
type How string

// ByAmount: the amount told. ByCue: the spot was watched until it stood at the
// cue, so that the amount is hardly known and the way is.
const (
	ByAmount How = "amount"
	ByCue    How = "cue"
)

// ScrewSays is what a screw turned out to do, as the person at it says.
type ScrewSays string

// Stuck: will not turn. Free: turns without touching anything. End: no travel
// left the way it was turned. Slipped: its label is on another screw or its
// thread jumped. Sticky: moves by jumps. Stripped: turns and does nothing.
const (
	Stuck    ScrewSays = "stuck"
	Free     ScrewSays = "free"
	End      ScrewSays = "end"
	Slipped  ScrewSays = "slipped"
	Sticky   ScrewSays = "sticky"
	Stripped ScrewSays = "stripped"
)

// Doubt says whether a reading is where the turns since the last one can have
// put the spot. The zero Doubt is none.
type Doubt struct {
	Doubted bool
	Chances float64 // 0 to 1: how often an honest reading is this far out
	Earlier float64 // 0 to 1: how likely it is the reading before that was misread
}

// maxScrews is the largest number of adjusting screws a cell can have.
const maxScrews = 4

// Tracker is the joint belief on where one mirror's spot is and what its
// screws do to it: p on the primary for the Secondary, t on the target for the
// Primary, both in the frame Tube. It is an immutable value: every method
// returns a new one.
type Tracker struct {
	mirror     optics.Mirror
	cell       optics.Cell
	bank       []hypothesis // never changed once made
	seen       bool
	still      bool // nothing was turned since the last look
	stillLooks int  // looks since something was turned
	travel     [maxScrews]float64
	told       [maxScrews]bool    // it was said which way the spot goes
	lastTo     [maxScrews]float64 // sign of the last turn, 0 = not turned yet
	says       [maxScrews]ScrewSays
	least      [maxScrews]float64 // travel at which a screw said that it goes no farther, anticlockwise
	most       [maxScrews]float64 // and clockwise; infinite: it did not
	last       *Move              // what was turned last; nil: nothing since the spot was lost
	since      int                // screws turned since the last look
	lock       [maxScrews]float64 // net turns of each lock
}

// NewTracker returns the belief before anything was read: from the scope's own
// figures as far as they are known, and from what an earlier session learnt
// (nil: none).
func NewTracker(t optics.Telescope, m optics.Mirror, learnt *Learnt) Tracker {
	k := Tracker{mirror: m, cell: t.Cell(m)}
	for i := range maxScrews {
		k.least[i], k.most[i] = math.Inf(-1), math.Inf(1)
	}
	if learnt.fits(k.cell) {
		k.bank = learnt.bank(k.cell)
	} else {
		k.bank = priorBank(t, m)
	}
	return k
}

// Seen reports whether a spot has been read at all since it was last lost.
func (k Tracker) Seen() bool { return k.seen }

// Spot returns where the spot is thought to be, if hands and eyes slipped only
// where that is likelier than not.
func (k Tracker) Spot() optics.Belief {
	b := mixed(likeliest(k.bank), 0)
	b.Cov = b.Cov.Add(optics.Round(spotLeastMM))
	return b
}

// spotLeastMM is what no number of readings tells, 1σ: they are given in whole
// millimetres and half-hours.
const spotLeastMM = 0.2

// PerTurn returns what a whole clockwise turn of screw i does to the spot, mm.
func (k Tracker) PerTurn(i int) optics.Belief { return mixed(k.bank, screwAt(i)) }

// LockPull returns what a whole clockwise turn of lock i does to the spot, mm.
func (k Tracker) LockPull(i int) optics.Belief { return mixed(k.bank, lockAt(k.cell.Screws, i)) }

// HandCertain returns the probability, 0 to 1, that the labels run as the
// scope's file says.
func (k Tracker) HandCertain() float64 {
	p := 0.0
	for _, h := range k.bank {
		if h.asFiled {
			p += h.weight
		}
	}
	return p
}

// Travel returns the net turns of screw i since the tracker was made.
func (k Tracker) Travel(i int) float64 { return k.travel[i] }

// Turned reports whether screw i was turned since the belief began, were it there and
// back.
func (k Tracker) Turned(i int) bool { return k.lastTo[i] != 0 }

// Lose forgets where the spot is and keeps what the screws do: the scope was
// moved, or the laser seated anew.
func (k Tracker) Lose() Tracker {
	k.bank = eachHypothesis(k.bank, func(g *gauss) { g.forget(0, lostSpotMM) })
	k.seen, k.still, k.stillLooks, k.last = false, false, 0, nil
	return k
}

// Shift widens where the spot is: something that is not modelled may have
// moved it.
func (k Tracker) Shift(by optics.Cov) Tracker {
	k.bank = eachHypothesis(k.bank, func(g *gauss) { g.widen(0, by) })
	return k
}

// Turn returns the belief after the moves were made, in order. Locks among
// them count as locks. hows says of each move how it was ended; the last one
// given holds for all that follow.
func (k Tracker) Turn(ms []Move, hows ...How) Tracker {
	how := ByAmount
	for i, m := range ms {
		if i < len(hows) {
			how = hows[i]
		}
		if m.Turns == 0 {
			continue
		}
		k.last = &m
		if m.Lock {
			k = k.LockTurn(m.Screw, m.Turns)
			continue
		}
		k = k.turnScrew(m.Screw, m.Turns, how)
	}
	return k
}

func (k Tracker) turnScrew(i int, turns float64, how How) Tracker {
	way := math.Copysign(1, turns)
	reversed := k.lastTo[i] == -way
	out := make([]hypothesis, 0, 2*len(k.bank))
	for _, h := range k.bank {
		wrong := wrongWays
		if h.coarse {
			wrong = wrongWaysCoarse
		}
		slip := h
		slip.slips, slip.weight = h.slips.then(true), h.weight*wrong
		h.slips, h.weight = h.slips.then(false), h.weight*(1-wrong)
		out = append(out, h, slip)
	}
	k.bank = pruned(out)
	for n := range k.bank { // the dropped ones need no arithmetic
		h := &k.bank[n]
		net, spread := effective(turns, reversed, h.coarse)
		if how == ByCue {
			net, spread = turns, math.Hypot(spread, cueSpread*turns)
		}
		if h.slips.slipped() {
			net = -turns
		}
		h.g = h.g.clone()
		h.g.move(screwAt(i), net, spread)
	}
	k.still, k.stillLooks = false, 0
	k.since++
	k.travel[i] += turns
	k.lastTo[i] = way
	return k
}

// What hands do, 1σ; trained people's and beginners'.
const (
	turnSpread      = 0.08 // of the turn
	coarseSpread    = 0.25
	turnLeastSpread = 0.01 // turns
	cueSpread       = 0.5  // of the turn that was foretold, where a cue decided
	lostTravel      = 0.02 // turns lost when a screw is reversed: 0.01 on a tight cell, 0.03 and more on a worn one
	lostSpread      = 0.014
	wrongWays       = 0.005
	wrongWaysCoarse = 0.05
	beginners       = 0.15 // how many people are
)

// effective returns what turns come to, and their 1σ error.
func effective(turns float64, reversed, coarse bool) (net, spread float64) {
	spread = turnSpread
	if coarse {
		spread = coarseSpread
	}
	spread = math.Hypot(spread*turns, turnLeastSpread)
	if !reversed {
		return turns, spread
	}
	lost := math.Min(lostTravel, math.Abs(turns))
	return turns - math.Copysign(lost, turns), math.Hypot(spread, lostSpread)
}

// LockTurn returns the belief after lock i was turned; clockwise bites.
func (k Tracker) LockTurn(i int, turns float64) Tracker {
	spread := math.Hypot(turnSpread*turns, turnLeastSpread)
	k.bank = eachHypothesis(k.bank, func(g *gauss) { g.move(lockAt(k.cell.Screws, i), turns, spread) })
	k.still, k.stillLooks = false, 0
	k.lock[i] += turns
	return k
}
