package adviser

import (
	"math"

	"spotward/optics"
)

// Learnt is what one session learnt of a mirror's screws, for the next one on
// the same scope. Lengths in mm a turn, in the frame Tube.
type Learnt struct {
	Mirror   optics.Mirror `json:"mirror"`
	PerTurn  []optics.Tube `json:"per_turn"`
	Spread   []optics.Cov  `json:"spread"`
	LockPull []optics.Tube `json:"lock_pull,omitempty"`
	LockCov  []optics.Cov  `json:"lock_spread,omitempty"`
	Hand     float64       `json:"hand"` // HandCertain
}

// Learnt returns what is known of the screws now.
func (k Tracker) Learnt() Learnt {
	l := Learnt{Mirror: k.mirror, Hand: k.HandCertain()}
	for i := range k.cell.Screws {
		b := k.PerTurn(i)
		l.PerTurn, l.Spread = append(l.PerTurn, b.At), append(l.Spread, b.Cov)
	}
	for i := range k.cell.Locks {
		b := k.LockPull(i)
		l.LockPull, l.LockCov = append(l.LockPull, b.At), append(l.LockCov, b.Cov)
	}
	return l
}

// fits reports whether l is of a cell like c and says enough of it: at least
// two screws to half of what they do. A nil l says nothing.
func (l *Learnt) fits(c optics.Cell) bool {
	if l == nil || len(l.PerTurn) != c.Screws || len(l.Spread) != c.Screws || len(l.LockPull) != len(l.LockCov) {
		return false
	}
	known := 0
	for i, r := range l.PerTurn {
		if l.Spread[i].Sigma() < r.Len()/2 {
			known++
		}
	}
	return known >= 2
}

func (l *Learnt) bank(c optics.Cell) []hypothesis {
	g := newGauss(2 + 2*c.Screws + 2*c.Locks)
	g.forget(0, lostSpotMM)
	for i := range l.PerTurn {
		a := screwAt(i)
		g.m[a], g.m[a+1] = l.PerTurn[i].X, l.PerTurn[i].Y
		g.widen(a, l.Spread[i])
	}
	for i := range c.Locks {
		if i >= len(l.LockPull) {
			g.forget(lockAt(c.Screws, i), lockPull*l.PerTurn[i].Len())
			continue
		}
		a := lockAt(c.Screws, i)
		g.m[a], g.m[a+1] = l.LockPull[i].X, l.LockPull[i].Y
		g.widen(a, l.LockCov[i])
	}
	return bothHands(hypothesis{weight: 1, asFiled: l.Hand >= 0.5, g: g})
}

// fitSigmas is how far two sessions may be apart in what they learnt of a screw,
// in their errors, and still go together. This program's own.
const fitSigmas = 3

// Beside returns what is known by l when an earlier session had learnt before: l,
// which began with that and so is the surer of the two where they agree; where
// they do not, as unsure as they are apart. It returns the screws of which that
// is so.
func (l Learnt) Beside(before *Learnt) (now Learnt, changed []int) {
	if before == nil || len(before.PerTurn) != len(l.PerTurn) || len(before.Spread) != len(l.Spread) {
		return l, nil
	}
	l.Spread = append([]optics.Cov(nil), l.Spread...)
	for i, c := range before.Spread {
		d := l.PerTurn[i].Sub(before.PerTurn[i])
		if mahalanobis2(d, c.Add(optics.Round(1))) < fitSigmas*fitSigmas {
			continue
		}
		changed = append(changed, i)
		l.Spread[i] = l.Spread[i].Add(optics.Cov{XX: d.X * d.X, XY: d.X * d.Y, YY: d.Y * d.Y})
	}
	return l, changed
}

// agedPart is how far a response may have wandered in a year, 1σ, as part of
// itself: what springs, threads and hands change. Trainers' judgement.
const agedPart = 0.1

// Aged returns what is still known of the screws after so many years: the same,
// less surely.
func (l Learnt) Aged(years float64) Learnt {
	wider := func(per []optics.Tube, spread []optics.Cov) []optics.Cov {
		out := make([]optics.Cov, len(spread))
		for i, c := range spread {
			out[i] = c
			if i < len(per) {
				out[i] = c.Add(optics.Round(agedPart * per[i].Len()).Scale(math.Sqrt(math.Max(0, years))))
			}
		}
		return out
	}
	l.Spread, l.LockCov = wider(l.PerTurn, l.Spread), wider(l.LockPull, l.LockCov)
	return l
}
