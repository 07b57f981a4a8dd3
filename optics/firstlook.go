package optics

import (
	"fmt"
	"math"
)

// Verdict is what a first look amounts to.
type Verdict string

// The verdicts: leave the scope alone; the secondary only; both mirrors, the
// secondary first; the primary only; nothing today.
const (
	Leave         Verdict = "leave"
	SecondaryOnly Verdict = "secondary"
	BothMirrors   Verdict = "both"
	PrimaryOnly   Verdict = "primary"
	NotToday      Verdict = "not_today"
)

// FirstLook is what was seen before anything was touched.
type FirstLook struct {
	Use Use
	// Method is how well ring and laser are known.
	Method Method
	P      *Belief    // spot on the primary, as read; nil = not on it, or not seen
	T      *Belief    // return spot on the target; nil = not on it, or not seen
	Aims   LaserError // how the laser is out, where that was measured
	// Fault is what is wrong with laser or holder; empty where it was not tried.
	Fault LaserFault
	// SecondaryOff: seen through the empty focuser, the secondary is turned or
	// out of its place.
	SecondaryOff bool
	// RingUnsure: there is no centre ring, or it is off by more than its width.
	RingUnsure bool
}

// Finding is a verdict with its reason, and the figures it stands on, mm.
type Finding struct {
	Verdict Verdict
	Why     string // a sentence or two
	// Claimed: both spots were seen, so that the next three mean something.
	Claimed        bool
	Claim          Claim
	AxisErrorMM    float64 // as likely as not within it
	AxisErrorMaxMM float64 // the true one is within it in 95 of 100
	Chance         float64 // that it is within what is allowed
	AllowedMM      float64
	// PrimaryOffered: the spot is central enough for the primary alone, which
	// leaves half of what that is off as axis error.
	PrimaryOffered bool
}

// LeaveWithin is how likely the axis error must be within what is allowed for a
// scope to be left alone: so that at every focal ratio more than 85 of 100 that are
// left alone are within what is allowed. This program's own, of 400 first looks a row of
// the feed's table at telescopes that were nearly home.
const LeaveWithin = 0.6

// Judge says what a first look amounts to. It says to leave a scope alone where
// the axis error is likely enough within what is allowed and the focuser points well
// enough. It offers the primary alone only with the spot on the primary at its goal.
func (t Telescope) Judge(l FirstLook) Finding {
	f := Finding{AllowedMM: t.AllowedMM(l.Use)}
	if why := t.notToday(l); why != "" {
		f.Verdict, f.Why = NotToday, why
		return f
	}
	if t.LensInside {
		f.Verdict, f.Why = t.weighSecondary(l)
		return f
	}
	if l.P == nil {
		f.Verdict, f.Why = BothMirrors, "The spot is not on the primary. Start with the secondary, then the primary."
		return f
	}
	goal := t.GoalOnPrimary(l.Use)
	f.PrimaryOffered = l.P.At.Sub(l.Aims.Rho).Len() <= goal.InsideMM
	if l.T != nil {
		t.figures(&f, l)
	}
	f.Verdict, f.Why = t.weigh(f, l, goal.InsideMM)
	if off := l.P.At.Sub(l.Aims.Rho).Len(); f.Verdict == Leave && off/2 > f.Claim.Error.At.Len() {
		f.PrimaryOffered = false // home against this spot it would leave more than there is
	}
	return f
}

// notToday returns why nothing read today would mean anything, or nothing.
func (t Telescope) notToday(l FirstLook) string {
	switch {
	case l.Fault == HolderLoose:
		return "The laser does not come back to its place in its holder, so its spots mean nothing. Start with the holder."
	case l.Fault == LaserBad:
		return "The laser points off by more than can be allowed for. Start with the laser."
	case l.SecondaryOff:
		return "The secondary is turned or out of its place. Its screws cannot make up for that: call a trained person first."
	case l.RingUnsure && !t.doesWithoutRing():
		return "The centre ring is missing or off the mirror's middle, and this mirror is too fast to do without. Start with the ring."
	}
	return ""
}

// doesWithoutRing tells whether the mirror's middle may be judged by its edge.
// That is out by some 3 % of the aperture, half of which is axis error.
func (t Telescope) doesWithoutRing() bool { return t.ComaFreeMM() >= 0.03*t.ApertureMM/2 }

// figures fills in what is known with both spots seen.
func (t Telescope) figures(f *Finding, l FirstLook) {
	m := l.Method
	m.Use = l.Use
	f.Claim, f.Claimed = t.ClaimFrom(m, l.Aims, *l.P, *l.T), true
	f.AxisErrorMM, f.AxisErrorMaxMM, f.Chance = f.Claim.AboutMM, f.Claim.AtMostMM, f.Claim.Within
}

// returnAfterSecondary returns where the return spot is thought to go when the
// secondary alone brings the spot on the primary home: by (2 − L/f)·S/L times
// what that is off.
func (t Telescope) returnAfterSecondary(l FirstLook) Belief {
	k := (2 - t.FromPrimaryMM/t.FocalLengthMM) * t.PathMM() / t.FromPrimaryMM
	return Belief{
		At:  l.T.At.Sub(l.P.At.Sub(l.Aims.Rho).Scale(k)),
		Cov: l.T.Cov.Add(l.P.Cov.Scale(k)),
	}
}

// weigh decides between the mirrors; insideMM is the goal on the primary.
func (t Telescope) weigh(f Finding, l FirstLook, insideMM float64) (Verdict, string) {
	off := l.P.At.Sub(l.Aims.Rho).Len()
	if l.T == nil {
		if f.PrimaryOffered {
			return PrimaryOnly, "The spot is central on the primary. The return spot is not on the face: the primary alone is out. It is too early to give an axis error."
		}
		return BothMirrors, fmt.Sprintf("The spot is %s from the middle of the primary (goal: %s). The return spot is not in sight. Start with the secondary. It is too early to give an axis error.",
			mmText(off), mmText(insideMM))
	}
	figures := fmt.Sprintf("The axis error is about %s, at most %s; %s is allowed.", mmText(f.AxisErrorMM), mmText(f.AxisErrorMaxMM), mmText(f.AllowedMM))
	home := t.GoalOnTargetWith(l.Aims, l.Use, l.P.At)
	aims := off <= t.AimAllowedMM()
	switch {
	case f.Chance >= LeaveWithin && aims:
		return Leave, figures + " Good enough: leave it alone."
	case f.PrimaryOffered && l.T.At.Sub(home.At).Len() <= home.InsideMM:
		return PrimaryOnly, figures + " The spot is central on the primary. The return spot is home, or near it, but perhaps not near enough: the primary alone."
	case f.PrimaryOffered:
		return PrimaryOnly, figures + " The spot is central on the primary: the primary alone is out."
	case t.homeBySecondary(l):
		return SecondaryOnly, figures + " The secondary alone is out. With the spot in the middle of the primary the return spot should come home by itself."
	case f.Chance >= LeaveWithin:
		return BothMirrors, figures + fmt.Sprintf(" But the focuser points %s off the middle of the primary; %s is allowed. Start with the secondary, then the primary.", mmText(off), mmText(t.AimAllowedMM()))
	}
	return BothMirrors, figures + " Start with the secondary, then the primary."
}

// weighSecondary decides about the secondary alone, by the spot on the primary,
// where a lens is built in and the return means nothing.
func (t Telescope) weighSecondary(l FirstLook) (Verdict, string) {
	inside := t.GoalOnPrimary(l.Use).InsideMM
	if l.P == nil {
		return SecondaryOnly, "The spot is not on the primary: the secondary is out. " + LensInsideWords
	}
	off := l.P.At.Sub(l.Aims.Rho).Len()
	if off <= inside {
		return Leave, "The spot is central on the primary: the secondary is right. " + LensInsideWords
	}
	return SecondaryOnly, fmt.Sprintf("The spot is %s from the middle of the primary (goal: %s): the secondary is out. ", mmText(off), mmText(inside)) + LensInsideWords
}

// homeBySecondary tells whether the return spot is thought to come home with
// the secondary alone: to its goal, or as near to it as the readings can tell.
func (t Telescope) homeBySecondary(l FirstLook) bool {
	after := t.returnAfterSecondary(l)
	home := t.GoalOnTargetWith(l.Aims, l.Use, l.Aims.Rho)
	return after.At.Sub(home.At).Len() <= math.Max(home.InsideMM, after.Cov.Sigma())
}

// mmText writes a length as far as it is worth: whole millimetres from ten on.
func mmText(mm float64) string {
	if mm >= 9.95 {
		return fmt.Sprintf("%.0f mm", mm)
	}
	return fmt.Sprintf("%.1f mm", mm)
}

// LookBeam returns the way of the beam that a first look tells of, to draw
// where it leaves by the open end: for a spot at p on the primary and a return
// at r on the target or, with r nil, with the primary taken to be square. The
// laser is taken to be true, and p and r to first order.
func (t Telescope) LookBeam(p Tube, r *Tube) (Spots, error) {
	pose := t.PoseFor(p, Tube{})
	if r != nil {
		pose = t.PoseFor(p, *r)
	} else {
		pose.Primary = Tilt{}
	}
	return t.Trace(pose)
}
