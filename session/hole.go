package session

import (
	"spotward/optics"
	"spotward/session/event"
)

// hole is what was told of the glow round the hole in this visit.
type hole struct {
	tries int // looks at which one side was brighter
	last  event.Glow
	at    optics.Tube // which side
	moved bool        // a screw was turned since
}

// mostTries is after how many of them what is left is accepted.
const mostTries = 3

// Errors of what is told of a spot in the hole, 1σ an axis, and how far off one
// is whose glow is brighter on one side: a part of the hole's radius the first
// time, then touchedMM. Computed for a beam stopped at its aperture, whose halo is
// as 1 : 2.3 half a millimetre off and as 1 : 27 two.
const (
	sigmaInHoleMM = 1.25
	sigmaEvenMM   = 0.5
	sigmaSideMM   = 0.6
	sidePart      = 0.6
	touchedMM     = 1.0
)

// holeBelief is where a spot stands of which only the glow round the hole is
// seen.
func (s Work) holeBelief(at optics.Tube, glow event.Glow) optics.Belief {
	off := s.Tel.Target.HoleRadiusMM * sidePart
	switch {
	case glow == event.GlowEven && s.glowOf() == event.GlowShifts:
		return optics.Belief{Cov: optics.Round(sigmaEvenMM)}
	case glow == event.GlowSide && s.glowOf() != event.GlowStays && at.Len() > 0:
		if s.hole.tries > 0 {
			off = touchedMM
		}
		return optics.Belief{At: at.Scale(off / at.Len()), Cov: optics.Round(sigmaSideMM)}
	}
	return optics.Belief{Cov: optics.Round(sigmaInHoleMM)}
}

// glowOf returns what is known of this kit's glow.
func (s Work) glowOf() string {
	if s.glow != "" {
		return s.glow
	}
	return s.Knew.Glow
}

// noteHole counts what was told of the hole. A side that has changed with a touch
// is a glow that shifts: then nobody is asked.
func (s *Work) noteHole(ev event.Event) {
	if ev.Face != optics.FaceTarget || ev.Saw != event.SawHome || ev.Glow == "" {
		return
	}
	side := s.Tel.FromSeen(ev.Face, optics.Seen{Right: ev.Right, Up: ev.Up})
	changed := s.hole.last != "" && s.hole.last != ev.Glow ||
		s.hole.last == event.GlowSide && side.Dot(s.hole.at) < 0.5*side.Len()*s.hole.at.Len()
	if s.hole.moved && changed && s.glowOf() == "" {
		s.glow = event.GlowShifts
	}
	if ev.Glow == event.GlowSide {
		s.hole.tries++
	}
	s.hole.last, s.hole.at, s.hole.moved = ev.Glow, side, false
}
