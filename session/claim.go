package session

import (
	"spotward/optics"
	"spotward/session/event"
)

// Claim returns what may be said of the axis error now, and false as long as
// either spot was not read since a screw could last have moved it.
func (s Work) Claim() (optics.Claim, bool) {
	if !s.p.Known || !s.t.Known {
		return optics.Claim{}, false
	}
	p, t := s.p.At, s.t.At
	if was := s.BeforeSw; was.turned == s.since.turns { // nothing but the swing has come between
		p, t = together(was.P, s.p), together(was.T, s.t)
	}
	return s.Tel.ClaimFrom(s.Method(), s.Laser.aims, p, t), true
}

// together returns what two looks at a spot that was not turned in between say
// together, or the later one where they do not agree. In the hole a spot stands as
// it stands: seeing it there twice says no more than once.
func together(was, now Spot) optics.Belief {
	if !was.Known || was.look == now.look || was.Saw == event.SawHome || now.Saw == event.SawHome {
		return now.At
	}
	if both, agree := was.At.Together(now.At); agree {
		return both
	}
	return now.At
}

// AxisError returns how far the primary's axis misses the centre of the field:
// what it is as likely as not within, and within in 95 of 100, mm in the focal
// plane. It claims nothing while either spot has not been seen.
func (s Work) AxisError() (aboutMM, atMostMM float64, ok bool) {
	c, ok := s.Claim()
	return c.AboutMM, c.AtMostMM, ok
}

func (s Work) sighting() Sighting {
	g := Sighting{
		P: s.p, T: s.t, turned: s.since.turns,
		Centred: s.there(optics.Secondary, s.p, near(s.GoalOnPrimary())), Home: s.there(optics.Primary, s.t, near(s.GoalOnTarget())),
	}
	if c, ok := s.Claim(); ok {
		g.claims(c)
	}
	return g
}

// claims takes what is claimed of the axis error at that moment.
func (g *Sighting) claims(c optics.Claim) {
	g.Claim, g.ErrKnown, g.ErrMM, g.ErrMaxMM = c, true, c.AboutMM, c.AtMostMM
}

// leaves returns how the scope stands. After turns or nips that nobody has looked
// after, nothing is known of that.
func (s Work) leaves() Sighting {
	if s.Left.turned == s.since.turns {
		return s.Left
	}
	return s.sighting()
}
