package history

import (
	"fmt"
	"math"
	"slices"

	"spotward/optics"
	"spotward/session"
	"spotward/session/scope"
)

// likeRing returns how badly the secondary and the laser explain that the spot
// stood elsewhere in the ring while the beam was read to come back where it was,
// as misfit does; 0 where it did not come back so. With the secondary alone
// the return spot goes k times as far, with the laser about as far. What the secondary was turned for is a second
// reading of how far the spot stood off.
func (i Interval) likeRing(tel optics.Telescope, now session.Record) (secondary, laser float64) {
	k := growth(tel, withSecondary)
	if i.P == nil || i.T == nil || i.Worked || i.Gone || misfit(*i.T, optics.Tube{}, 0) > 1 {
		return 0, 0
	}
	p := *i.P
	if turned, ok := turnedFor(tel, now, optics.Secondary); ok && turned.At.Len() > 0 {
		p = together(p, optics.Belief{At: turned.At.Scale(-1), Cov: turned.Cov.Add(optics.Round(leftSigmaMM))})
	}
	with := func(times float64) float64 { return misfit(*i.T, p.At.Scale(times), times*p.Cov.Sigma()) }
	return with(k), with(1)
}

// tookBack is how much of a ring's move, or of what was turned for it, may be left
// over once it was turned for: what both miss by. This program's own choice.
const tookBack = 0.6

// leftSigmaMM is how near to the ring's middle the spot is left (trainers'
// judgement).
const leftSigmaMM = 0.7

// together returns two beliefs in one, each by its weight.
func together(a, b optics.Belief) optics.Belief {
	wa, wb := 1/square(a.Cov.Sigma()), 1/square(b.Cov.Sigma())
	return optics.Belief{At: a.At.Scale(wa).Add(b.At.Scale(wb)).Scale(1 / (wa + wb)), Cov: optics.Round(1 / math.Sqrt(wa+wb))}
}

// ringNotLaser reports that the ring explains the interval where the laser might
// as well, but the scope held when that kit was exchanged for another, later: a
// laser that points off would have shown.
func (i Interval) ringNotLaser(all []Interval) bool {
	if !i.onPrimary() || i.ringSecondary <= 1 || i.ringLaser <= 0.7 {
		return false
	}
	return slices.ContainsFunc(all, func(o Interval) bool {
		return o.Cause == CauseHeld && o.Found.After(i.Found) && !scope.SameName(o.LeftKit, o.FoundKit) && o.touches(i.FoundKit)
	})
}

// ringHint is about a centre ring that moved on the glass. It may move once
// only: then it is said where the secondary was turned for it, as far as it was
// read. One swapped reading is not.
func ringHint(counted []Interval, records []session.Record, tel func(session.Record) optics.Telescope) (Hint, bool) {
	h := Hint{ID: HintRing, Of: len(counted), Short: "the ring moved", Needs: "the centre ring"}
	by := map[string]session.Record{}
	for _, r := range records {
		by[r.ID] = r
	}
	confirmed := false
	for _, i := range counted {
		if i.Cause != CauseRing && !i.ringNotLaser(counted) {
			continue
		}
		h.N++
		turned, ok := turnedFor(tel(by[i.To]), by[i.To], optics.Secondary)
		left := turned.At.Add(i.P.At) // what the turns did not take back
		confirmed = confirmed || ok && left.Len() <= tookBack*math.Max(i.P.At.Len(), turned.At.Len())
	}
	h.Say = fmt.Sprintf("The spot stood elsewhere in the centre ring and the beam came back as before (%d of %d). The ring moved, no mirror.", h.N, h.Of)
	h.Do = "Check the ring with a paper template and a ruler before any screw is turned."
	return h, confirmed || h.N >= leastIntervals
}
