package history

import (
	"math"
	"strings"

	"spotward/optics"
	"spotward/session"
	"spotward/session/event"
	"spotward/session/scope"
)

// KnewKit adds to what is known of a kit what a session with it found.
func KnewKit(k *event.Known, r session.Record) {
	if r.CircleMM != nil {
		k.Circle = &event.KnownCircle{At: r.Ended, RadiusMM: *r.CircleMM, SeatMM: r.SeatMM}
	}
	if r.Glow != "" {
		k.Glow = r.Glow
	}
}

// KnewScope adds to what is known of a scope what a session on it found.
func KnewScope(k *event.Known, r session.Record) {
	k.Sessions++
	if len(r.Labels) > 0 {
		k.Labels = r.Labels
	}
	if r.Locks != "" {
		k.Locks = r.Locks
	}
	if r.Manner != "" {
		k.Manner = r.Manner
	}
	if r.SwingMM != nil {
		k.Swing = &event.KnownSwing{At: r.Ended, MovedMM: *r.SwingMM}
	}
	if look := lookOf(r.Found); look != nil {
		look.At, k.Found = r.Began, look
	}
	if look := lookOf(r.Leaves()); look != nil {
		look.At, k.Left = r.Ended, look
	}
}

func lookOf(m session.Moment) *event.KnownLook {
	if m.P == nil && m.T == nil {
		return nil
	}
	look := &event.KnownLook{P: knownSpot(m.P), T: knownSpot(m.T)}
	if m.Claimed {
		look.AxisErrorMM, look.AxisErrorMaxMM = m.AxisErrorMM, m.AxisErrorMaxMM
	}
	return look
}

func knownSpot(m *session.Mark) *event.KnownSpot {
	if m == nil {
		return nil
	}
	return &event.KnownSpot{Saw: m.Saw, KnownPlace: event.KnownPlace{Right: m.Right, Up: m.Up, SigmaMM: m.Sigma}}
}

// jumped reports whether the spot on the primary stood elsewhere than it was left.
func jumped(left, found *session.Mark) bool {
	if left == nil || found == nil || left.Saw != event.SawPlace || found.Saw != event.SawPlace {
		return false
	}
	by := optics.Tube{X: found.Right - left.Right, Y: found.Up - left.Up}
	return moved(optics.Belief{At: by, Cov: optics.Round(math.Hypot(left.Sigma, found.Sigma))}, countsOnPrimaryMM)
}

// Knew returns what the sessions on a scope, and with its kit, say of them, for the
// next one's begin line. It is nil where there was none. Practice says nothing,
// nor does what was read of a laser before somebody worked on it.
func (s Stock) Knew(sc scope.Scope) *event.Known {
	mended := lastJob(JobsOfKit(s.Work, sc.Kit)).T
	if sc.Kit == "" {
		mended = lastJob(pickJobs(JobsOfScope(s.Work, sc.Name), func(j Job) bool { return j.Part == PartLaser })).T
	}
	var k event.Known
	last := map[string]session.Record{} // of each scope, for what moved since
	for _, r := range s.Records {
		if !Counts(r) {
			continue
		}
		name := strings.ToLower(r.Scope)
		before := last[name]
		last[name] = r
		sameScope := scope.SameName(r.Scope, sc.Name)
		sameKit := r.Kit != "" && scope.SameName(r.Kit, sc.Kit) || r.Kit == "" && sc.Kit == "" && sameScope
		if sameKit && !r.Began.Before(mended) {
			if jumped(before.Leaves().P, r.Found.P) {
				k.Circle = nil // it may have been the laser: once more it is turned
			}
			KnewKit(&k, r)
		}
		if sameScope {
			KnewScope(&k, r)
		}
	}
	if k.Sessions == 0 && k.Circle == nil {
		return nil
	}
	return &k
}
