package virtual

import (
	"math"

	"spotward/optics"
)

// pose returns how mirrors and laser stand. A holder that has twisted about
// the tube turns the mirror's normal just as a tilt across the fold does.
func (w *World) pose() optics.Pose {
	p := optics.Pose{Secondary: w.secondary.pose(), Primary: w.primary.pose(), Laser: w.laser.beam()}
	p.Secondary.Grad.Y += w.twisted
	p.Secondary.ShiftMM += w.setup.Faults.SecondarySlipMM
	return p
}

// lit tells whether the laser shines.
func (w *World) lit() bool {
	dead := w.setup.Faults.DeadAfter
	return w.laser.on && (dead == 0 || w.acts < dead)
}

// beam returns where the beam goes; false if it is dark or does not get
// anywhere.
func (w *World) beam() (optics.Spots, bool) {
	if !w.lit() {
		return optics.Spots{}, false
	}
	s, err := w.real.Trace(w.pose())
	return s, err == nil && !w.missesSecondary(s.Outgoing)
}

// power returns how bright the laser is against a good one.
func (w *World) power() float64 {
	if w.setup.Faults.WeakLaser {
		return 0.15
	}
	return 1
}

// light returns the beam as it leaves the laser.
func (w *World) light() gaussian { return waist(w.real.Target.BeamWidthMM) }

// returnWidth returns how wide the return spot is on the target face: the
// primary has focused it.
func (w *World) returnWidth() float64 {
	path := w.real.PathMM()
	return w.light().on(path).focused(w.real.FocalLengthMM).on(path).width()
}

// missesSecondary tells whether a beam passes the secondary, whose edge is
// round as seen along the tube.
func (w *World) missesSecondary(at optics.Tube) bool { return at.Len() > w.real.MinorAxisMM/2 }

// onRing returns the part of the outgoing spot's light that falls on the ring.
func (w *World) onRing(s optics.Spots) float64 {
	width, off := w.light().on(w.real.PathMM()).width(), s.P.Sub(w.ring).Len()
	return shareWithin(width, off, w.real.RingOuterMM) - shareWithin(width, off, w.real.RingInnerMM)
}

// comesBack returns the part of the light that the primary sends back: paper
// scatters what falls on it, and dull paper keeps it.
func (w *World) comesBack(s optics.Spots) float64 {
	keeps := 0.3
	if w.setup.Faults.RingSwallows {
		keeps = 1
	}
	return 1 - keeps*w.onRing(s)
}

// atMouth returns where the return beam crosses the wall of the tube, from the
// middle of the drawtube.
func (w *World) atMouth(s optics.Spots) optics.Tube {
	wall := w.real.InnerRadiusMM
	last := s.Beam[len(s.Beam)-1]
	if s.Leaves || last.X <= 0 { // it never comes there
		return s.T
	}
	from := s.Beam[len(s.Beam)-2]
	k := math.Max(0, math.Min(1, (wall-from.X)/(last.X-from.X)))
	return optics.Tube{
		X: from.Z + k*(last.Z-from.Z) - w.real.FromPrimaryMM,
		Y: from.Y + k*(last.Y-from.Y),
	}
}

// ghost returns where the light goes that the laser's window sends on a second
// round; false if the return beam misses the window.
func (w *World) ghost(s optics.Spots) (optics.Spots, bool) {
	if s.Wall || s.Leaves || s.T.Len() > w.real.Target.FaceRadiusMM {
		return optics.Spots{}, false
	}
	n := len(s.Beam)
	on, from := s.Beam[n-1], s.Beam[n-2]
	p := w.pose()
	p.Laser = optics.Laser{
		OffsetY: on.Y, OffsetZ: on.Z - w.real.FromPrimaryMM,
		SlopeY: (on.Y - from.Y) / (on.X - from.X), SlopeZ: (on.Z - from.Z) / (on.X - from.X),
	}
	g, err := w.real.Trace(p)
	return g, err == nil && !g.Wall
}
