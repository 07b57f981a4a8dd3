package mirrors

import (
	"spotward/optics"
	"spotward/session/event"
)

// Hole is what was told of the glow round the hole in this visit.
type Hole struct {
	Tries int // looks at which the spot was in it
	last  event.Glow
	at    optics.Tube // which side
	moved bool        // a screw was turned since
}

// mostTries is after how many of them what is left is accepted.
const mostTries = 3

// Errors of what is told of a spot in the hole by itself, 1σ an axis, and how far
// off one is whose glow is brighter on one side, as a part of the hole's radius.
// Computed for a beam stopped at its aperture, whose halo is
// as 1 : 2.3 half a millimetre off and as 1 : 27 two.
const (
	sigmaInHoleMM = 1.25
	sigmaEvenMM   = 0.5
	sigmaSideMM   = 0.6
	sidePart      = 0.6
)

// HoleBelief is where a spot stands of which only the glow round the hole is
// seen.
func (s Work) HoleBelief(at optics.Tube, glow event.Glow) optics.Belief {
	off := s.Tel.Target.HoleRadiusMM * sidePart
	switch {
	case glow == event.GlowEven && s.GlowOf() == event.GlowShifts:
		return optics.Belief{Cov: optics.Round(sigmaEvenMM)}
	case glow == event.GlowSide && s.GlowOf() != event.GlowStays && at.Len() > 0:
		return optics.Belief{At: at.Scale(off / at.Len()), Cov: optics.Round(sigmaSideMM)}
	}
	return optics.Belief{Cov: optics.Round(sigmaInHoleMM)}
}

// seenInHole returns where a return spot stands of which the glow round the hole was
// told, with what was believed of it before. Where the glow says nothing it is z.
func (s Work) seenInHole(glow event.Glow, z optics.Belief) optics.Belief {
	switch {
	case glow == event.GlowEven && s.GlowOf() == event.GlowShifts:
		return s.Tel.InHole(s.beforeGlow(), nil)
	case glow == event.GlowSide && z.At.Len() > 0:
		return s.Tel.InHole(s.beforeGlow(), &z.At)
	}
	return z
}

// beforeGlow returns what is believed of the return spot as somebody looks at it:
// after the swing where it stood before, nil where nothing is.
func (s Work) beforeGlow() *optics.Belief {
	if was := s.BeforeSw; was.T.Known && was.Turned == s.Since.Turns {
		return &was.T.At
	}
	if k := s.Primary.Tracker; k.Seen() {
		spot := k.Spot()
		return &spot
	}
	return nil
}

// GlowOf returns what is known of this kit's glow.
func (s Work) GlowOf() string {
	if s.Glow != "" {
		return s.Glow
	}
	return s.Knew.Glow
}

// noteHole counts what was told of the hole. A side that has changed with a touch
// is a glow that shifts: then nobody is asked.
func (s *Work) noteHole(ev event.Event) {
	if ev.Face != optics.FaceTarget || ev.Saw != event.SawHome {
		return
	}
	s.Hole.Tries++
	if ev.Glow == "" {
		return
	}
	side := s.Tel.FromSeen(ev.Face, optics.Seen{Right: ev.Right, Up: ev.Up})
	changed := s.Hole.last != "" && s.Hole.last != ev.Glow ||
		s.Hole.last == event.GlowSide && side.Dot(s.Hole.at) < 0.5*side.Len()*s.Hole.at.Len()
	if s.Hole.moved && changed && s.GlowOf() == "" {
		s.Glow = event.GlowShifts
	}
	s.Hole.last, s.Hole.at, s.Hole.moved = ev.Glow, side, false
}
