package history

import (
	"math"

	"spotward/optics"
	"spotward/session"
)

// withSecondary returns how far the return spot moves when the secondary alone
// moves the spot on the primary by p: 1.4 to 1.65 times as far, the same way in
// the tube's frame.
func withSecondary(tel optics.Telescope, p optics.Tube) optics.Tube {
	pose := tel.PoseFor(p, optics.Tube{})
	pose.Primary = optics.Tilt{}
	return tel.FirstOrder(pose).T
}

// withLaser returns the same for a laser that points off by as much: about as
// far.
func withLaser(tel optics.Telescope, p optics.Tube) optics.Tube {
	s := tel.PathMM()
	return tel.FirstOrder(optics.Pose{Laser: optics.Laser{SlopeZ: p.X / s, SlopeY: p.Y / s}}).T
}

// broughtHome returns the part of the return spot's move since it was left at
// t, with the spot on the primary at p, that the primary was turned for in the
// session r: mostly the return spot is not on its face at first, and what
// brought it home tells where it was. nil: not known.
func broughtHome(tel optics.Telescope, r session.Record, p, t *optics.Belief) *optics.Belief {
	if p == nil || t == nil || !r.Worked() {
		return nil
	}
	homeP := spotOf(tel, optics.FacePrimary, r.Leaves().P)
	homeT := spotOf(tel, optics.FaceTarget, r.Leaves().T)
	turned, ok := turnedFor(tel, r, optics.Primary)
	if homeP == nil || homeT == nil || !ok {
		return nil
	}
	fold := withSecondary(tel, homeP.At.Sub(p.At))
	grows := growth(tel, withSecondary)
	return &optics.Belief{
		At:  homeT.At.Sub(t.At).Sub(fold).Sub(turned.At),
		Cov: homeT.Cov.Add(t.Cov).Add(homeP.Cov.Add(p.Cov).Scale(grows)).Add(turned.Cov),
	}
}

// turnSpread is how far hands and screws keep from what was told, of the way
// the spot went (trainers' judgement).
const turnSpread = 0.15

// turnedFor returns where the mirror's net turns have moved its spot, by what the
// screws had taught by the end, and false where that is not known.
func turnedFor(tel optics.Telescope, r session.Record, m optics.Mirror) (optics.Belief, bool) {
	var way optics.Belief
	long := 0.0
	taught := r.Learnt[m]
	for i, label := range tel.Cell(m).Labels {
		n := r.NetTurns[string(m)+" "+label]
		if n == 0 {
			continue
		}
		if taught == nil || i >= len(taught.PerTurn) {
			return way, false
		}
		way.At = way.At.Add(taught.PerTurn[i].Scale(n))
		long = math.Hypot(long, taught.PerTurn[i].Len()*n)
	}
	way.Cov = optics.Round(turnSpread * long)
	return way, true
}

// growth returns how many times as far as the spot on the primary the return
// spot moves by a cause alone.
func growth(tel optics.Telescope, alone func(optics.Telescope, optics.Tube) optics.Tube) float64 {
	return alone(tel, optics.Tube{Y: 1}).Len()
}

// split finds the part of the return spot's move that the secondary does not
// explain, from the readings or from what brought it home, whichever tells
// more, and how badly each cause alone explains it.
func (i *Interval) split(tel optics.Telescope, home *optics.Belief) {
	if i.P == nil {
		return
	}
	k := growth(tel, withSecondary)
	fold := withSecondary(tel, i.P.At)
	if i.T != nil {
		i.own = &optics.Belief{At: i.T.At.Sub(fold), Cov: i.T.Cov.Add(i.P.Cov.Scale(k))}
	}
	if home != nil && (i.own == nil || home.Cov.Sigma() < i.own.Cov.Sigma()) {
		i.own = home
	}
	if i.own == nil {
		return
	}
	if i.T == nil {
		i.T, i.Worked = &optics.Belief{At: fold.Add(i.own.At), Cov: i.own.Cov.Add(i.P.Cov.Scale(k))}, true
	}
	i.secondary = misfit(*i.own, optics.Tube{}, 0)
	laser := withLaser(tel, i.P.At).Sub(fold)
	i.laser = misfit(*i.own, laser, (k-growth(tel, withLaser))*i.P.Cov.Sigma())
}

// misfit returns how far own is from where a cause would have it, known to
// sigmaMM, as a multiple of what still counts as the same place.
func misfit(own optics.Belief, want optics.Tube, sigmaMM float64) float64 {
	eyes := own.Cov.Add(optics.Round(sigmaMM)).Sigma()
	return own.At.Sub(want).Len() / math.Max(countsOnTargetMM, sure*eyes)
}

// clear is how much worse the other cause must fit for one to be told from it.
const clear = 1.5

// cause says what the interval alone points to.
func (i Interval) cause() Cause {
	onPrimary := i.P != nil && moved(*i.P, countsOnPrimaryMM)
	switch {
	case i.own == nil && !onPrimary && i.Gone && i.P != nil:
		return CausePrimary
	case i.own == nil && onPrimary:
		return CauseOpen
	case i.own == nil:
		return CauseUnseen
	}
	onTarget := i.Gone || moved(*i.T, countsOnTargetMM)
	fits := math.Min(i.secondary, i.laser) <= 1
	switch {
	case !onPrimary && !onTarget:
		return CauseHeld
	case !onPrimary && !fits:
		return CausePrimary
	case !onPrimary:
		return CauseOpen // so little on the primary may be a part of it
	case i.ringSecondary > 1 && i.ringLaser > 1:
		return CauseRing
	case !fits:
		return CauseBoth
	case i.laser > 1 && i.laser > clear*i.secondary:
		return CauseSecondary
	case i.secondary > 1 && i.secondary > clear*i.laser:
		return CauseSeat
	}
	return CauseOpen
}
