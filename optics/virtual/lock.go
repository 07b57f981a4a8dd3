package virtual

import (
	"math"

	"spotward/optics"
)

// In turns of a lock past the place where it first touches: how far it is snug,
// how far two fingers on the key can tighten it, from where it makes the screw
// beside it go stiffly, and how far tightening that screw may drive the mirror
// onto it.
const (
	lockSnug   = 0.2
	lockTight  = 0.45
	lockDrags  = 0.1
	lockBlocks = 0.1
	lockWobble = -0.75 // eased so far it wobbles in its thread
)

// lock is what holds the mirror beside a screw.
type lock struct {
	turned float64     // turns past the place where it touched to begin with
	pull   float64     // turns of the screw beside it that it undoes, a turn of its own
	skew   float64     // rad, how far from that screw's line it pulls
	follow float64     // of an adjusting turn, how much takes up the lock's room
	unit   optics.Tube // slope of the plate by one turn of the screw beside it
	began  float64     // where that screw stood to begin with, turns
}

// bite returns how far lock i presses, turns; below zero it stands off.
func (m *mount) bite(i int) float64 {
	l := m.locks[i]
	return l.turned + l.follow*(m.screws[i].reach()-l.began)
}

// room returns how far the screw beside the lock can be tightened, turns.
func (l lock) room(bite float64) float64 {
	switch {
	case bite >= lockBlocks:
		return 0
	case l.follow == 0:
		return math.Inf(1)
	}
	return (lockBlocks - bite) / l.follow
}

// turnLock turns lock i as far as it goes.
func (m *mount) turnLock(i int, by float64) (did float64, felt Felt) {
	bite := m.bite(i)
	to := math.Max(lockWobble-1, math.Min(math.Max(lockTight, bite), bite+by))
	did = to - bite
	m.locks[i].turned += did
	switch {
	case did < by-1e-9:
		felt = AtEnd
	case to < lockWobble:
		felt = Free
	}
	return did, felt
}

// lockPull returns what a turn of lock i, while it bites, does to the plate's
// slope.
func (m *mount) lockPull(i int) optics.Tube {
	l := m.locks[i]
	s, c := math.Sincos(l.skew)
	return optics.Tube{X: c*l.unit.X - s*l.unit.Y, Y: s*l.unit.X + c*l.unit.Y}.Scale(-l.pull)
}

// lockSlope returns what the locks together do to the plate's slope.
func (m *mount) lockSlope() optics.Tube {
	sum := optics.Tube{}
	for i := range m.locks {
		sum = sum.Add(m.lockPull(i).Scale(math.Max(0, m.bite(i))))
	}
	return sum
}

// locksHold tells whether anything but springs holds the mirror: a lock that
// bites, or no locks to begin with.
func (m *mount) locksHold() bool {
	for i := range m.locks {
		if m.bite(i) > 0 {
			return true
		}
	}
	return len(m.locks) == 0
}
