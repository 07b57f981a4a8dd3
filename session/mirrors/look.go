package mirrors

import (
	"math"
	"slices"

	"spotward/optics"
	"spotward/session/event"
)

// Question is what a reading answers.
type Question struct {
	Goal  *optics.Goal  // where the spot is wanted; nil: nowhere
	Faces []optics.Face // where it may be as well
	Snug  bool          // the secondary's screws were made snug for it
}

// Look brings a reading into the beliefs. It reports false when the reading
// cannot be so and is asked again.
func (s *Work) Look(q Question, ev event.Event) bool {
	if ev.Saw == event.SawGone || ev.Saw == event.SawCantSee {
		s.notThere(q, ev)
		s.Doubt.Of = nil
		return true
	}
	z := s.Belief(q.Goal, ev)
	spot := Spot{Known: true, Saw: ev.Saw, At: z, Glow: ev.Glow, Look: s.Looks, Picture: ev.Picture}
	if ev.Face == optics.FaceTarget && ev.Saw == event.SawHome {
		spot.At = s.seenInHole(ev.Glow, z)
	}
	m := optics.Primary
	if ev.Face == optics.FacePrimary {
		m = optics.Secondary
	} else {
		z = s.onTarget(ev.Face, z)
	}
	k := s.Tracker(m)
	if q.Snug {
		k = k.Shift(s.snugCov())
	}
	chances := 0.0
	if s.Doubt.Of != nil && (s.sameReading(*s.Doubt.Of, ev) || s.Doubt.inRow >= mostDoubts) {
		k = k.Confirm(z)
	} else if s.Doubt.Of == nil && ev.Saw == event.SawPlace && !k.Seen() && s.offFace(ev.Face, z.At) {
		s.Doubt.Of = &ev
		s.Doubt.inRow++
		return false
	} else {
		seen, d := k.Look(z)
		if d.Doubted {
			s.Doubt.Of, s.Doubt.Either = &ev, d.Earlier > eitherOff
			s.Doubt.inRow++
			return false
		}
		k, chances = seen, d.Chances
	}
	s.Doubt.Of, s.Doubt.inRow = nil, 0
	s.Search.gone, s.Search.fetched = nil, false
	s.SetTracker(m, k)
	s.Since.looked = looked{}
	if s.Since.last.mirror == m {
		s.Since.looked = looked{s.Since.last, z}
	}
	s.noteIdle(m, z)
	s.noteStill(m, z)
	s.noteHeadway(m, chances)
	s.noteTaught(m, z)
	switch ev.Face {
	case optics.FacePrimary:
		if !q.Snug {
			spot.At, spot.twice = together(s.P, spot), s.P.closely() && spot.closely()
		}
		s.P = spot
	case optics.FaceTarget:
		s.T, s.Search.Rung = spot, optics.FaceTarget
	default:
		s.Search.Rung = ev.Face
	}
	if ev.Face == optics.FaceCard {
		s.Red = Spot{Known: true, Saw: ev.Saw, At: s.Belief(q.Goal, ev)}
	}
	if ev.Face != optics.FacePrimary {
		s.Search.Astray, s.Search.Missed, s.Search.Rounds = false, nil, 0
		s.noteHole(ev)
		s.reckonFound()
	}
	return true
}

// How far from the middle a first reading may be that is on what is looked at, as part
// of how far that reaches. This program's own, as of what is typed.
const (
	overPrimary = 1.25
	overTarget  = 2
)

// offFace reports whether a place is off what is looked at, by more than eyes err.
func (s Work) offFace(f optics.Face, at optics.Tube) bool {
	far := map[optics.Face]float64{optics.FacePrimary: overPrimary * s.Tel.ApertureMM / 2, optics.FaceTarget: overTarget * s.Tel.Target.FaceRadiusMM}[f]
	return s.Reckons && far > 0 && at.Len() > far
}

// eitherOff is how likely it must be that the reading before was the wrong one
// for it to be named beside the doubted one.
const eitherOff = 0.25

// mostDoubts is how many readings in a row may be asked again.
const mostDoubts = 2

// notThere notes that a spot was looked for and not found on its face.
func (s *Work) notThere(q Question, ev event.Event) {
	spot := Spot{Saw: ev.Saw, Gone: true}
	if ev.Face == optics.FacePrimary {
		s.P = spot
		s.Secondary.Tracker = s.Secondary.Tracker.Lose()
		s.noteLost(optics.Secondary)
		return
	}
	if ev.Face == optics.FaceTarget {
		s.T = spot
	}
	s.noIdle(noLock)
	if s.Primary.Tracker.Seen() {
		s.Primary.Tracker = s.Primary.Tracker.Shift(optics.Round(s.Tel.Target.FaceRadiusMM))
	}
	missed := []optics.Face{ev.Face}
	if ev.All {
		missed = q.Faces
	}
	s.Search.Missed = append(slices.Clone(s.Search.Missed), missed...)
	rung, all := s.nextRung()
	if s.Search.Rung, s.Search.Astray = rung, true; all {
		s.Search.Missed = nil
		s.Search.Rounds++
		s.noteLost(optics.Primary)
	}
}

// noteLost notes that the spot of mirror m is nowhere: since the last turn, if that was
// at m. Where taking it back has not helped, nothing more is taken back.
func (s *Work) noteLost(m optics.Mirror) {
	if s.Search.gone = nil; s.Since.last.mirror == m && !s.Search.fetched {
		s.Search.gone = s.Since.last.moves
	}
	s.Search.fetched, s.Since.last = false, lastTurn{}
}

// lostBy returns the mirror by whose last turn its spot was lost, "" if none was.
func (s Work) lostBy() optics.Mirror {
	if len(s.Search.gone) == 0 {
		return ""
	}
	return s.Search.gone[0].Mirror
}

// Errors of a reading in figures with which none came, 1σ in mm, as reading.SigmaOf
// has it: what a trained eye does with some margin. This program's own.
const (
	sigmaPlainMM = 0.55 // beside the relative error
	sigmaFrac    = 0.12
)

// Belief turns a reading into a place with its error, in the tube's frame of
// its face.
func (s Work) Belief(goal *optics.Goal, ev event.Event) optics.Belief {
	at := s.Tel.FromSeen(ev.Face, optics.Seen{Right: ev.Right, Up: ev.Up})
	switch ev.Saw {
	case event.SawWithin:
		if goal != nil {
			return optics.Belief{At: goal.At, Cov: optics.Round(goal.InsideMM / 2)}
		}
		return optics.Belief{Cov: optics.Round(s.RingMM() / 2)}
	case event.SawInRing:
		return optics.Belief{Cov: optics.Round(s.RingMM() / 2)}
	case event.SawHome:
		return s.HoleBelief(at, ev.Glow)
	}
	if c := ev.Cov; c != nil {
		return optics.Belief{At: at, Cov: s.Tel.CovFromSeen(ev.Face, optics.Cov{XX: c[0], XY: c[1], YY: c[2]})}
	}
	if ev.Saw == event.SawOffGlass {
		return optics.Belief{At: at, Cov: optics.Round(s.Tel.ApertureMM / 4)}
	}
	return optics.Belief{At: at, Cov: optics.Round(math.Hypot(sigmaPlainMM, sigmaFrac*at.Len()))}
}

// RingMM returns the radius that "in the ring" stands for.
func (s Work) RingMM() float64 {
	if s.Tel.RingInnerMM > 0 {
		return s.Tel.RingInnerMM
	}
	return s.Tel.ApertureMM * 0.03 // no ring: the pointing tolerance
}

// usualRingMM is how wide a centre ring mostly is, for mirrors that have none.
const usualRingMM = 16

// RingWideMM is the ring from edge to edge, by which a circle is told.
func (s Work) RingWideMM() float64 {
	if s.Tel.RingOuterMM > 0 {
		return 2 * s.Tel.RingOuterMM
	}
	return usualRingMM
}

// reached reports whether a spot is near enough to its goal. A reading that
// says less than the goal asks does not count, however central it sounds; one
// seen going down the hole is as near as anybody can see.
func (s Spot) reached(g optics.Goal) bool {
	if !s.Known {
		return false
	}
	if s.Saw == event.SawHome && s.Glow == "" && g.At.Len() <= optics.EyesMM {
		return true // at the hole itself, and nothing more can be told
	}
	return s.Saw == event.SawWithin || inside(s.At, g)
}

// Vague reports whether the reading on the primary says less than its goal
// asks: somewhere inside the ring, on a mirror that asks for the middle.
func (s Work) Vague() bool {
	return s.P.Known && s.P.Saw != event.SawWithin && s.P.At.Cov.Sigma() > surelyMM(s.GoalOnPrimary()) &&
		s.P.At.At.Sub(s.GoalOnPrimary().At).Len() <= s.GoalOnPrimary().InsideMM
}

// Centred reports whether the spot on the primary is where it is wanted.
func (s Work) Centred() bool {
	return s.there(optics.Secondary, s.P, s.GoalOnPrimary())
}

// Home reports whether the return spot is where it is wanted.
func (s Work) Home() bool { return s.there(optics.Primary, s.T, s.GoalOnTarget()) }

// there reports whether the spot of mirror m is at its goal: by the reading
// itself, or by what it and all before it come to.
func (s Work) there(m optics.Mirror, spot Spot, g optics.Goal) bool {
	if m == optics.Primary && spot.Known && spot.Saw == event.SawHome && s.Hole.Tries >= mostTries {
		return true // nearer nobody comes by the glow
	}
	return spot.Known && (spot.reached(g) || inside(s.Tracker(m).Spot(), g) || s.atHand(m, spot, g) || s.asNear(m, g))
}

// near widens a goal by what no eye can tell: a second reading of a spot that
// was at its goal still counts as there.
func near(g optics.Goal) optics.Goal {
	g.InsideMM += optics.EyesMM
	return g
}

// surelyMM is how well a spot must be known for its place to count, 1σ.
func surelyMM(g optics.Goal) float64 { return math.Max(0.75*g.InsideMM, 1.1*optics.EyesMM) }

func inside(z optics.Belief, g optics.Goal) bool {
	if z.Cov.Sigma() > surelyMM(g) {
		return false
	}
	return z.At.Sub(g.At).Len() <= g.InsideMM
}

// onTarget converts a reading of the return spot on another face to where it
// would stand on the target face.
func (s Work) onTarget(f optics.Face, z optics.Belief) optics.Belief {
	if f == optics.FaceTarget {
		return z
	}
	return s.Tel.ReturnFrom(f, z, s.P.At)
}

// sameReading reports whether a second reading says the same again, as far as
// eyes can tell.
func (s Work) sameReading(a, b event.Event) bool {
	if a.Face != b.Face {
		return false
	}
	za, zb := s.Belief(nil, a), s.Belief(nil, b)
	return zb.At.Sub(za.At).Len() <= againSigmas*za.Cov.Add(zb.Cov).Sigma()
}

// againSigmas is how far apart two readings of one place may be, in their own
// errors.
const againSigmas = 2
