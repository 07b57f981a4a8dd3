package history

import (
	"math"

	"spotward/optics"
	"spotward/session"
	"spotward/session/event"
)

// taughtSigmaDeg is how far the direction that a screw has taught may be from
// its true one, one standard deviation (trainers' judgement).
const taughtSigmaDeg = 12

// strayOfTen is how many of ten moves are taken to be off the line by something
// else; cornerOdds is how much likelier one screw must be than no screw and than
// the next one: a chance find in one of a hundred.
const (
	strayOfTen = 1
	cornerOdds = 4.6 // ln 100
)

// corner returns the letter of the screw along whose line the spot went, to and
// fro, and "" where no screw stands out. A spring or a lock that gives, or a
// screw that turns, moves the spot along its own screw's line.
func corner(moves []optics.Belief, taught *event.Taught, labels []string) string {
	if taught == nil || len(taught.PerTurn) != len(labels) || len(moves) < leastIntervals {
		return ""
	}
	best, next, at := math.Inf(-1), math.Inf(-1), -1
	for n, way := range taught.PerTurn {
		odds := 0.0
		for _, m := range moves {
			odds += alongOdds(m, way)
		}
		switch {
		case odds > best:
			best, next, at = odds, best, n
		case odds > next:
			next = odds
		}
	}
	if best < cornerOdds || best-next < cornerOdds {
		return ""
	}
	return labels[at]
}

// alongOdds returns how much likelier a move is along way, either sense, than
// in any direction, as a logarithm.
func alongOdds(m optics.Belief, way optics.Tube) float64 {
	long := m.At.Len()
	if long == 0 || way.Len() == 0 {
		return 0
	}
	off := math.Acos(math.Min(1, math.Abs(m.At.Dot(way))/(long*way.Len()))) * 180 / math.Pi
	sigma := math.Hypot(taughtSigmaDeg, math.Atan2(m.Cov.Sigma(), long)*180/math.Pi)
	// The bell's share between -90° and 90°, so that it adds up to one there.
	bell := math.Exp(-square(off/sigma)/2) / (sigma * math.Sqrt(2*math.Pi) * math.Erf(90/(sigma*math.Sqrt2)))
	const even = 1.0 / 180
	return math.Log((float64(10-strayOfTen)*bell + strayOfTen*even) / (10 * even))
}

// lastTaught returns what the screws of a mirror have taught, newest first.
func lastTaught(records []session.Record, m optics.Mirror) *event.Taught {
	var out session.Record
	for _, r := range records {
		if Counts(r) && r.Learnt[m] != nil && !r.Began.Before(out.Began) {
			out = r
		}
	}
	return out.Learnt[m]
}

// atCorner adds to a hint which screw it points to.
func (h *Hint) atCorner(counted []Interval, records []session.Record, tel func(session.Record) optics.Telescope) {
	var mirror optics.Mirror
	var moves []optics.Belief
	for _, i := range counted {
		switch h.ID {
		case HintSprings, HintLocks, HintPrimary:
			if mirror = optics.Primary; i.Cause == CausePrimary && i.own != nil {
				moves = append(moves, *i.own)
			}
		case HintSecondary:
			if mirror = optics.Secondary; i.onPrimary() {
				moves = append(moves, *i.P)
			}
		}
	}
	if len(moves) < leastIntervals {
		return
	}
	h.Corner = corner(moves, lastTaught(records, mirror), tel(records[len(records)-1]).Cell(mirror).Labels)
	if h.Corner == "" {
		return
	}
	h.Short += ", at " + h.Corner
	h.Say += " It moved along screw " + h.Corner + "'s line."
	switch h.ID {
	case HintSprings:
		h.Needs = "the spring at screw " + h.Corner
		h.Do = "Look at the spring of screw " + h.Corner + " first, then at its lock. Align once more."
	case HintLocks:
		h.Needs = "the lock at screw " + h.Corner
		h.Do = "Look at the lock nearest screw " + h.Corner + " first. " + h.Do
	case HintPrimary:
		h.Needs = "spring or lock at " + h.Corner
		h.Do = "Look at the spring and the lock of screw " + h.Corner + " first."
	case HintSecondary:
		h.Needs = "the secondary's screw " + h.Corner
		h.Do = "Look at the secondary's screw " + h.Corner + " first. Leave the primary."
	}
}
