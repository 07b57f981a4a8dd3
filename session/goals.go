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

// mostLooser is how much wider a goal is made at the most because hands bring the
// spot no nearer. This program's own, of 300 sessions a row of the feed's table:
// from twice on the axis error left is the greater for it, from half as much on
// the moves that lead away are more than one in a hundred.
const mostLooser = 1.5

// atHand reports whether a spot of mirror m, once its screws were turned, is as
// near to g as hands bring it, and read as well as g asks.
func (s State) atHand(m optics.Mirror, spot Spot, g optics.Goal) bool {
	most := math.Min(s.mostFloorMM(m), mostLooser*g.InsideMM)
	if g.InsideMM >= most || m == optics.Primary || !s.turnedHere(m) || spot.At.Cov.Sigma() > surelyMM(g) {
		return false
	}
	off := spot.At.At.Sub(g.At).Len()
	return off <= most && off <= s.reckoned.floorMM(s.Tracker(m))
}

// mostFloorMM is how far hands may fall short of a goal for that to be left: to
// the edge of ring or hole.
func (s State) mostFloorMM(m optics.Mirror) float64 {
	if m == optics.Primary {
		return s.Tel.Target.HoleRadiusMM
	}
	return s.ringMM()
}

// leastGainMM is the least that a move must bring near its goal: half of what an
// eye can tell.
const leastGainMM = optics.EyesMM / 2

// asNear reports whether the spot of mirror m, which was read twice where it
// stands, is as near to g as hands can bring it and eyes can tell: no move is
// worth making.
func (s State) asNear(m optics.Mirror, g optics.Goal) bool {
	k := s.Tracker(m)
	if k.LooksSince() < 2 || k.Spot().At.Sub(g.At).Len() > g.InsideMM+optics.EyesMM || k.Spot().Cov.Sigma() > s.mostFloorMM(m)/2 {
		return false
	}
	return !s.reckoned.worthMoving(k, g)
}
