package optics

// Learnt is what one session learnt of a mirror's screws, for the next one on
// the same scope. Lengths in mm a turn, in the frame Tube.
type Learnt struct {
	Mirror   Mirror  `json:"mirror"`
	PerTurn  []Tube  `json:"per_turn"`
	Spread   []Cov   `json:"spread"`
	LockPull []Tube  `json:"lock_pull,omitempty"`
	LockCov  []Cov   `json:"lock_spread,omitempty"`
	Hand     float64 `json:"hand"` // HandCertain
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
func (l *Learnt) fits(c Cell) bool {
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

func (l *Learnt) bank(c Cell) []hypothesis {
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
