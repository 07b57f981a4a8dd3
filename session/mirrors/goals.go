package mirrors

import (
	"math"

	"spotward/optics"
	"spotward/optics/adviser"
)

// AllowedMM returns the axis error that this scope may have for its use.
func (s Work) AllowedMM() float64 { return s.Tel.AllowedMM(s.Use()) }

func (s Work) Use() optics.Use { return optics.Use(s.Scope.Use) }

// GoalOnPrimary returns where the spot on the primary is wanted. Before a
// laser that does not point true is measured, inside the ring is all that is
// asked.
func (s Work) GoalOnPrimary() optics.Goal {
	g := s.Tel.GoalOnPrimary(s.Use())
	if s.FitDue() {
		g.InsideMM = math.Max(g.InsideMM, s.RingMM())
	}
	g.At = s.Laser.Aims.Rho
	return g
}

// GoalOnTarget returns where the return spot is wanted, given what is left on
// the primary.
func (s Work) GoalOnTarget() optics.Goal {
	p := s.Laser.Aims.Rho
	if s.Centred() { // else the primary has nothing to make up for yet
		p = s.P.At.At
	}
	return s.Tel.GoalOnTargetWith(s.Laser.Aims, s.Use(), p)
}

// FitDue reports whether the laser is still to be measured by turning it.
func (s Work) FitDue() bool {
	return !s.Laser.Fitted && s.Laser.CircleMM > s.Tel.CircleIgnoredMM() && s.Phase.Measures
}

// mostLooser is how much wider a goal is made at the most because hands bring the
// spot no nearer. This program's own, of 300 sessions a row of the feed's table:
// from twice on the axis error left is the greater for it, from half as much on
// the moves that lead away are more than one in a hundred.
const mostLooser = 1.5

// atHand reports whether a spot of mirror m, once its screws were turned, is as
// near to g as hands bring it, and read as well as g asks.
func (s Work) atHand(m optics.Mirror, spot Spot, g optics.Goal) bool {
	most := math.Min(s.mostFloorMM(m), mostLooser*g.InsideMM)
	if g.InsideMM >= most || m == optics.Primary || !s.TurnedHere(m) || spot.At.Cov.Sigma() > surelyMM(g) {
		return false
	}
	off := spot.At.At.Sub(g.At).Len()
	return off <= most && off <= s.reckoned.floorMM(s.Tracker(m))
}

// mostFloorMM is how far hands may fall short of a goal for that to be left: to
// the edge of ring or hole.
func (s Work) mostFloorMM(m optics.Mirror) float64 {
	if m == optics.Primary {
		return s.Tel.Target.HoleRadiusMM
	}
	return s.RingMM()
}

// leastGainMM is the least that a move must bring near its goal: half of what an
// eye can tell.
const leastGainMM = optics.EyesMM / 2

// asNear reports whether the spot of mirror m, which was read twice where it
// stands, is as near to g as hands can bring it and eyes can tell: no move is
// worth making.
func (s Work) asNear(m optics.Mirror, g optics.Goal) bool {
	k := s.Tracker(m)
	if k.LooksSince() < 2 || k.Spot().At.Sub(g.At).Len() > g.InsideMM+optics.EyesMM || k.Spot().Cov.Sigma() > s.mostFloorMM(m)/2 {
		return false
	}
	return !s.reckoned.worthMoving(k, g)
}

// HomeGoal is where the return spot is wanted before the locks bite: opposite
// to where they are known to pull it.
func (s Work) HomeGoal() optics.Goal { return s.parkGoal(s.homePart()) }

// parkGoal is the same with what the return spot may take for itself: a part of what
// is allowed, 0 for all that its goal leaves it.
func (s Work) parkGoal(part float64) optics.Goal {
	g := s.GoalOnTarget()
	if part > 0 {
		g.InsideMM = math.Min(g.InsideMM, math.Max(optics.EyesMM, part*s.AllowedMM()*s.Tel.PathMM()/s.Tel.FocalLengthMM))
	}
	if s.Tel.Primary.Locks == 0 {
		return g
	}
	left := make([]float64, s.Tel.Primary.Locks)
	for i := range left {
		left[i] = pressing(s.Locks.Eased[i])
	}
	return adviser.ParkGoal(s.Primary.Tracker, g, left)
}
