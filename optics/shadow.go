package optics

// What follows is a check that does not ask how the laser points. A lens on the
// laser spreads its beam, and the light that comes back carries the shadow of
// the centre ring. The shadow's middle is the ray that met the ring's middle,
// whatever the slope of the laser in its holder. To first order, with e the
// axis error, a where the focuser's axis meets the primary, d how far the
// source stands off that axis, m how far the ring stands off the mirror's
// middle, and k = S/f:
//
//	shadow = 2·k·e + 2·(k − 1)·a − 2·d + (2 − k)·m
//
// Derived by hand, and held by the trace (see Trace) in the tests. That the
// shadow comes back at 2·f·τ whatever the laser's slope is N. O. Carlin's
// (Sky & Telescope, January 2003; from memory).

// ShadowSource is what else moves the ring's shadow on the target, mm. The zero
// ShadowSource is a source on the axis of a focuser that points at the middle
// of the primary, with a ring that is stuck right there.
type ShadowSource struct {
	// Aim is where the focuser's axis meets the primary: of a true laser, its
	// spot. Some 2 % of it counts.
	Aim Belief
	// Source is how far the point from which the light seems to spread is off
	// the focuser's axis, X along z. It counts in full.
	Source Belief
	// Ring is how far the ring's middle is off the mirror's. Half of it counts.
	Ring Belief
}

// terms returns what the source adds to the shadow's place.
func (t Telescope) terms(s ShadowSource) Belief {
	k := t.PathMM() / t.FocalLengthMM
	return Belief{
		At:  s.Aim.At.Scale(2 * (k - 1)).Sub(s.Source.At.Scale(2)).Add(s.Ring.At.Scale(2 - k)),
		Cov: s.Aim.Cov.Scale(2 * (k - 1)).Add(s.Source.Cov.Scale(2)).Add(s.Ring.Cov.Scale(2 - k)),
	}
}

// ShadowOf returns where the shadow of the ring stands on the target, from the
// source's hole, for an axis error e: 2·e·S/f, and what the source adds.
func (t Telescope) ShadowOf(e Belief, s ShadowSource) Belief {
	k, more := 2*t.PathMM()/t.FocalLengthMM, t.terms(s)
	return Belief{At: e.At.Scale(k).Add(more.At), Cov: e.Cov.Scale(k).Add(more.Cov)}
}

// AxisErrorFromShadow is the inverse of ShadowOf for readings: what a shadow
// read at z on the target tells of the axis error, with its covariance.
func (t Telescope) AxisErrorFromShadow(z Belief, s ShadowSource) Belief {
	k, more := t.FocalLengthMM/(2*t.PathMM()), t.terms(s)
	return Belief{At: z.At.Sub(more.At).Scale(k), Cov: z.Cov.Add(more.Cov).Scale(k)}
}

// ShadowSourceOf returns what is to be believed of the source where the method
// says no more: aim is where the spot on the primary was seen.
func ShadowSourceOf(m Method, aim Belief) ShadowSource {
	return ShadowSource{
		Aim:    aim,
		Source: Belief{Cov: Round(orGuess(m.LaserOffsetMM, LaserOffsetGuessMM))},
		Ring:   Belief{Cov: Round(orGuess(m.RingPlacedMM, RingPlacedGuessMM))},
	}
}
