package mirrors

import (
	"spotward/optics"
	"spotward/session/event"
)

// Claim returns what may be said of the axis error now, and false as long as
// either spot was not read since a screw could last have moved it.
func (s Work) Claim() (optics.Claim, bool) {
	if !s.P.Known || !s.T.Known {
		return optics.Claim{}, false
	}
	p, t := s.P.At, s.T.At
	if was := s.BeforeSw; was.Turned == s.Since.Turns { // nothing but the swing has come between
		p, t = together(was.P, s.P), together(was.T, s.T)
	}
	return s.Tel.ClaimFrom(s.Method(), s.Laser.Aims, p, t), true
}

// together returns what two looks at a spot that was not turned in between say
// together, or the later one where they do not agree. In the hole, or somewhere in
// the ring, a spot stands as it stands: seeing it there twice says no more than once.
func together(was, now Spot) optics.Belief {
	if was.Look == now.Look || !was.closely() || !now.closely() {
		return now.At
	}
	if both, agree := was.At.Together(now.At); agree {
		return both
	}
	return now.At
}

// closelyMM is how well a spot must have been read for a second reading to be another
// opinion: less well is somewhere in the ring, or toward an hour of it.
const closelyMM = 1.4

// closely reports whether a spot was read so.
func (s Spot) closely() bool {
	return s.Known && s.Saw == event.SawPlace && s.At.Cov.Sigma() <= closelyMM
}

// AxisError returns how far the primary's axis misses the centre of the field:
// what it is as likely as not within, and within in 95 of 100, mm in the focal
// plane. It claims nothing while either spot has not been seen.
func (s Work) AxisError() (aboutMM, atMostMM float64, ok bool) {
	c, ok := s.Claim()
	return c.AboutMM, c.AtMostMM, ok
}

func (s Work) Sighting() Sighting {
	g := Sighting{
		P: s.P, T: s.T, Turned: s.Since.Turns,
		Centred: s.there(optics.Secondary, s.P, near(s.GoalOnPrimary())), Home: s.there(optics.Primary, s.T, near(s.GoalOnTarget())),
	}
	if c, ok := s.Claim(); ok {
		g.Claims(c)
	}
	return g
}

// Claims takes what is claimed of the axis error at that moment.
func (g *Sighting) Claims(c optics.Claim) {
	g.Claim, g.ErrKnown, g.ErrMM, g.ErrMaxMM = c, true, c.AboutMM, c.AtMostMM
}

// Leaves returns how the scope stands. After turns or nips that nobody has looked
// after, nothing is known of that.
func (s Work) Leaves() Sighting {
	if s.Left.Turned == s.Since.Turns {
		return s.Left
	}
	return s.Sighting()
}
