package mirrors

import (
	"math"

	"spotward/optics"
	"spotward/session/event"
)

// surelyReady is how likely a scope must be ready by one reading of the spot on the
// primary for closer looks to be of no use. This program's own.
const surelyReady = 0.95

// tagHangs reports whether the tag may hang on closer looks: with the return spot
// home and the glow even it would be ready by two readings of the spot on the
// primary, and not surely by one.
func (s Work) tagHangs() bool {
	if s.GlowOf() == event.GlowStays || s.GlowOf() == event.GlowUnknown || s.P.Saw != event.SawPlace {
		return false
	}
	home := optics.Belief{Cov: optics.Round(sigmaEvenMM)}
	with := func(p optics.Cov) optics.Claim {
		return s.Tel.ChancesFrom(s.Method(), optics.LaserError{}, optics.Belief{Cov: p}, home)
	}
	return with(s.P.At.Cov).Within < surelyReady && with(readTwice(s.P.At.Cov)).Grade() == optics.GradeReady
}

// readTwice is the error of two readings that each have the error c.
func readTwice(c optics.Cov) optics.Cov { return c.Scale(math.Sqrt2 / 2) }

// TwiceTells reports whether a second reading of the spot on the primary, before one
// leaves it, is worth its answer.
func (s Work) TwiceTells() bool { return !s.P.twice && s.tagHangs() }

// mayEarn is how near a claim must come to what ready asks for a walk to the spot on
// the primary. This program's own.
const mayEarn = 0.75

// SwungMayEarn reports whether the tag hangs on the spot on the primary after the
// swing: read once more where it stands it would come near to ready.
func (s Work) SwungMayEarn() bool {
	c, ok := s.Claim()
	if !ok || s.P.Saw != event.SawPlace || c.Grade() == optics.GradeReady {
		return false
	}
	p := optics.Belief{At: s.P.At.At, Cov: readTwice(s.P.At.Cov)}
	again := s.Tel.ChancesFrom(s.Method(), s.Laser.Aims, p, s.T.At)
	return again.Within >= mayEarn*optics.ReadyWithin
}

// How much of what is allowed the return spot may take for itself while it is brought
// home: so much that ring and hole may each use their share, and less where the tag
// hangs on it and the spot is in the hole, where the glow says which way is left. This
// program's own: of 100 sessions at f/6 a half are ready by it, else a third.
const (
	homePart  = 1.2
	closePart = 0.7
)

// homePart returns that part, or 0 for all that the goal leaves it: once the locks
// hold, what they do comes on top.
func (s Work) homePart() float64 {
	hangs := s.tagHangs()
	switch {
	case !s.Phase.Homing && !(s.Phase.Bitten && hangs && s.Slack() > lastNipTurns):
		return 0
	case hangs && s.T.Glow != "":
		return closePart
	}
	return homePart
}
