package history

import (
	"cmp"
	"math"
	"slices"
	"time"

	"spotward/optics"
	"spotward/session"
	"spotward/session/event"
)

// What a spot must have moved, mm, between how a scope was left and how it was
// found next, to count at all (trainers' judgement).
const (
	countsOnPrimaryMM = 3
	countsOnTargetMM  = 2
)

// Cause is what an interval points to.
type Cause string

// The causes. CauseHeld: neither spot moved. CauseBoth: neither mirror alone,
// nor the laser, moves the spots so. CauseRing: the ring on the glass. CauseOpen: something moved, and what was
// read fits more than one cause. CauseUnseen: too little was read.
const (
	CauseHeld      Cause = "held"
	CauseSecondary Cause = "secondary"
	CausePrimary   Cause = "primary"
	CauseSeat      Cause = "laser seat"
	CauseBoth      Cause = "both"
	CauseRing      Cause = "ring"
	CauseOpen      Cause = "open"
	CauseUnseen    Cause = "not seen"
)

// Interval is the time between two sessions on a scope: how the spots moved
// from where the one left them to where the next found them.
type Interval struct {
	Scope       string
	To          string // the id of the session that found it
	Left, Found time.Time
	LeftKit     string // the kits that were read with
	FoundKit    string
	LeftWho     string         // who was at the session before
	AfterWork   bool           // screws were turned in the session before
	P, T        *optics.Belief // moved by, in the tube's frame; nil: not known
	Worked      bool           // T was not read: it follows from what brought it home
	Gone        bool           // the return spot, read before, was no longer on its face
	Cause       Cause

	// own is the part of T that the secondary alone does not explain; nil: not
	// known.
	own *optics.Belief
	// How badly one cause alone explains own, as a multiple of what still counts
	// as the same place.
	secondary, laser float64
	// The same where the ring alone may explain it; 0: it does not.
	ringSecondary, ringLaser float64
}

// Days returns how long the interval was.
func (i Interval) Days() float64 { return i.Found.Sub(i.Left).Hours() / 24 }

// Counts reports whether enough was read to tell whether the scope held.
func (i Interval) Counts() bool { return i.Cause != CauseUnseen }

// Intervals returns the intervals between the records of one scope, oldest
// first. tel gives the telescope with the laser that a session was read with.
// Practice is left out, and so is what follows a session that was stopped with
// screws turned, or was dropped or is only told: how it left the scope is not
// known.
func Intervals(records []session.Record, tel func(session.Record) optics.Telescope) []Interval {
	real := slices.DeleteFunc(slices.Clone(records), func(r session.Record) bool { return r.Practice })
	slices.SortStableFunc(real, func(a, b session.Record) int { return cmp.Or(a.Began.Compare(b.Began), cmp.Compare(a.ID, b.ID)) })
	var out []Interval
	for n := 1; n < len(real); n++ {
		before, now := real[n-1], real[n]
		if !Counts(before) || !Counts(now) {
			continue
		}
		out = append(out, intervalOf(before, now, tel(before), tel(now)))
	}
	return out
}

func intervalOf(before, now session.Record, telBefore, tel optics.Telescope) Interval {
	i := Interval{
		Scope: now.Scope, To: now.ID, Left: before.Ended, Found: now.Began,
		LeftKit: before.Kit, FoundKit: now.Kit, LeftWho: before.Who, AfterWork: before.Worked(),
	}
	left, found := before.Leaves(), now.Found
	i.P = movedBy(spotOf(telBefore, optics.FacePrimary, left.P), spotOf(tel, optics.FacePrimary, found.P))
	wasAt := spotOf(telBefore, optics.FaceTarget, left.T)
	i.T = movedBy(wasAt, spotOf(tel, optics.FaceTarget, found.T))
	i.Gone = wasAt != nil && found.T != nil && found.T.Saw == event.SawGone
	i.split(tel, broughtHome(tel, now, spotOf(telBefore, optics.FacePrimary, left.P), wasAt))
	i.ringSecondary, i.ringLaser = i.likeRing(tel, now)
	i.Cause = i.cause()
	return i
}

// spotOf returns a mark in the tube's frame, or nil where it has no place.
func spotOf(tel optics.Telescope, f optics.Face, m *session.Mark) *optics.Belief {
	if m == nil || m.Saw == event.SawGone || m.Saw == event.SawCantSee {
		return nil
	}
	return &optics.Belief{At: tel.FromSeen(f, optics.Seen{Right: m.Right, Up: m.Up}), Cov: optics.Round(m.Sigma)}
}

func movedBy(left, found *optics.Belief) *optics.Belief {
	if left == nil || found == nil {
		return nil
	}
	return &optics.Belief{At: found.At.Sub(left.At), Cov: found.Cov.Add(left.Cov)}
}

// sure is how many standard deviations an axis a spot stays within in 95 of 100
// (Rayleigh distribution).
const sure = 2.45

// moved reports whether a spot moved by more than leastMM, and by more than
// two readings can miss it.
func moved(by optics.Belief, leastMM float64) bool {
	return by.At.Len() >= math.Max(leastMM, sure*by.Cov.Sigma())
}
