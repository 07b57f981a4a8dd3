package optics

// What follows is the beam's way to first order in tilts and slopes. With a the
// slope that the secondary gives the outgoing beam, a = (2·gx, gy) for its
// gradient g; h the gradient of the primary; L = FromPrimaryMM, X =
// HoleFromAxisMM, S = L + X, I = f − L:
//
//	p = L·a
//	q = 2·L·a − L²·a/f − 2·L·h
//	t = (2 − L/f)·S·a − 2·S·h
//	e = I·a − f·h = ½·(t·f/S − p)
//
// Derived by hand, and held by the trace (see Trace) in the tests.

// FirstOrder returns the spots of a pose to first order, with the laser's own
// offset and slope, the secondary's pivot and its shift taken along. Only P,
// Q, T, E, Outgoing and Return are filled in. At p 58 mm it misses p by 0.4
// and t by 2.5 of 110 mm.
func (t Telescope) FirstOrder(p Pose) Spots {
	f, L, X := t.FocalLengthMM, t.FromPrimaryMM, t.HoleFromAxisMM
	a := fold(p.Secondary.Grad)
	h := p.Primary.Grad
	// How far the fold stands toward the focuser of where it should: the pivot
	// above it turns a tilt into a displacement, and so does a shift.
	aside := Tube{X: t.PivotAboveMM*p.Secondary.Grad.X - p.Secondary.ShiftMM}
	offset := Tube{p.Laser.OffsetZ, p.Laser.OffsetY}
	slope := Tube{p.Laser.SlopeZ, p.Laser.SlopeY}

	var s Spots
	s.Outgoing = offset.Add(slope.Scale(X)).Add(aside)
	down := a.Add(slope)
	s.P = s.Outgoing.Add(down.Scale(L))
	up := down.Sub(s.P.Scale(1 / f)).Sub(h.Scale(2))
	s.Return = s.P.Add(up.Scale(L))
	s.Q = s.Return.Sub(s.Outgoing)
	s.T = s.Return.Sub(aside).Add(up.Add(a).Scale(X)).Sub(offset)
	s.E = a.Sub(h).Scale(f - L).Sub(h.Scale(L)).Sub(aside)
	return s
}

// fold returns the slope that a secondary of gradient g gives the outgoing
// beam: twice the tilt toward the focuser, once the tilt across it.
func fold(g Tube) Tube { return Tube{2 * g.X, g.Y} }

// PoseFor returns a pose of the two mirrors that, to first order, puts the spot
// on the primary at p and the return spot on the target at r, with a true
// laser.
func (t Telescope) PoseFor(p, r Tube) Pose {
	L := t.FromPrimaryMM
	var pose Pose
	pose.Secondary.Grad = Tube{p.X / (2*L + t.PivotAboveMM), p.Y / L}
	unmoved := t.FirstOrder(pose).T
	pose.Primary.Grad = unmoved.Sub(r).Scale(1 / (2 * t.PathMM()))
	return pose
}

// AxisError returns e, where the primary's optical axis cuts the focal plane,
// from the two spots: e = ½·(r·f/S − p), mm, X along z. It holds whatever the
// secondary's pose, for a laser that stands true in its holder.
//
// What it leaves out grows with the square of p, and hardly with r. On a 254 mm
// f/4.7 with r up to 40 mm it is 0.01 mm with p at 5, 0.05 at 10, 0.21 at 20 and 0.47
// at 30; with p home and r at 110 it is 0.11. In general no more than 0.8·p²/f +
// 0.03·r²/f (measured with the trace, over all directions).
func (t Telescope) AxisError(p, r Tube) Tube {
	return r.Scale(t.FocalLengthMM / t.PathMM()).Sub(p).Scale(0.5)
}

// AxisErrorBelief returns what two independent readings tell of the axis error.
func (t Telescope) AxisErrorBelief(p, r Belief) Belief {
	return Belief{
		At:  t.AxisError(p.At, r.At),
		Cov: r.Cov.Scale(t.FocalLengthMM / t.PathMM()).Add(p.Cov).Scale(0.5),
	}
}

// OpenEndMM returns where the open end is, from the primary's vertex: as
// given, else half an aperture beyond the secondary, as tubes mostly are.
func (t Telescope) OpenEndMM() float64 {
	if t.SkyEndMM > t.FromPrimaryMM {
		return t.SkyEndMM
	}
	return t.FromPrimaryMM + t.ApertureMM/2
}

// MouthMM returns how far the drawtube's mouth is from the tube's axis: flush
// with the tube's wall, or, where its radius is not known, 6 % of the aperture
// beyond the mirror's edge.
func (t Telescope) MouthMM() float64 {
	if t.InnerRadiusMM > 0 {
		return t.InnerRadiusMM
	}
	return 0.56 * t.ApertureMM
}

// returnOn returns what the return spot shows on face f for a return r on the
// target and a spot p on the primary, as (k, c) of k·r + c·p. First order, for
// a true laser: between the secondary and the target the return goes away from
// the focuser's axis in proportion to its way from the primary.
//
//	secondary  q    = r·L/S
//	mouth      m    = r·(L + M)/S
//	card       card = (q − p)·Z/L + p     Z the open end, from the vertex
func (t Telescope) returnOn(f Face) (k, c float64) {
	L, S := t.FromPrimaryMM, t.PathMM()
	switch f {
	case FaceSecondary:
		return L / S, 0
	case FaceMouth:
		return (L + t.MouthMM()) / S, 0
	case FaceCard:
		return t.OpenEndMM() / S, 1 - t.OpenEndMM()/L
	}
	return 1, 0
}

// ReturnFrom returns a reading of the return at z on face f (FaceTarget,
// FaceMouth, FaceSecondary or FaceCard), with the spot p on the primary, as a
// return on the target: the inverse of returnOn.
func (t Telescope) ReturnFrom(f Face, z, p Belief) Belief {
	k, c := t.returnOn(f)
	return Belief{
		At:  z.At.Sub(p.At.Scale(c)).Scale(1 / k),
		Cov: z.Cov.Add(p.Cov.Scale(c)).Scale(1 / k),
	}
}
