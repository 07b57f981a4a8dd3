package session

import (
	"math"

	"spotward/optics"
)

// AllowedMM returns the axis error that this scope may have for its use.
func (s State) AllowedMM() float64 { return s.Tel.AllowedMM(s.use()) }

func (s State) use() optics.Use { return optics.Use(s.Scope.Use) }

// GoalOnPrimary returns where the spot on the primary is wanted. Before a
// laser that does not point true is measured, inside the ring is all that is
// asked.
func (s State) GoalOnPrimary() optics.Goal {
	g := s.Tel.GoalOnPrimary(s.use())
	if s.fitDue() {
		g.InsideMM = math.Max(g.InsideMM, s.ringMM())
	}
	g.At = s.Laser.aims.Rho
	return g
}

// GoalOnTarget returns where the return spot is wanted, given what is left on
// the primary.
func (s State) GoalOnTarget() optics.Goal {
	p := s.Laser.aims.Rho
	if s.Centred() { // else the primary has nothing to make up for yet
		p = s.p.At.At
	}
	return s.Tel.GoalOnTargetWith(s.Laser.aims, s.use(), p)
}

// fitDue reports whether the laser is still to be measured by turning it.
func (s State) fitDue() bool {
	return !s.Laser.fitted && s.Laser.CircleMM > s.Tel.CircleIgnoredMM() && s.inPlan(StageLaserFit)
}

func (s State) inPlan(id StageID) bool {
	for _, p := range s.way.plan {
		if p == id {
			return true
		}
	}
	return false
}
