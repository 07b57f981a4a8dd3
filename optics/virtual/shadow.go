package virtual

import "spotward/optics"

// Shadow returns what is to be seen on the target with a lens on the laser: the
// middle of the ring's shadow, which is where the light comes back that met the
// ring's middle, whichever way the laser points.
func (w *World) Shadow() Sight {
	v := Sight{Face: optics.FaceTarget, Carded: w.card}
	if !w.lit() {
		v.Unseen = LaserDark
		return v
	}
	p := w.pose()
	for range 8 { // slopes shrink the miss by its square: this is exact
		s, err := w.real.Trace(p)
		if err != nil {
			v.Unseen = NoBeam
			return v
		}
		v.At = s.T
		miss := w.ring.Sub(s.P).Scale(1 / w.real.PathMM())
		p.Laser.SlopeZ += miss.X
		p.Laser.SlopeY += miss.Y
	}
	v.Seen = seenOn(v.Face, w.real, v.At)
	v.WidthMM, v.Bright = 2*w.real.RingOuterMM, onPaper*w.power()
	switch {
	case w.real.RingOuterMM == 0:
		v.Unseen = NoBeam
	case v.At.Len() > w.real.Target.FaceRadiusMM:
		v.Unseen = Beyond
	}
	v.Visible = v.Unseen == ""
	return v
}

// ShadowEyes returns what the person makes of the ring's shadow.
func (w *World) ShadowEyes() Reading {
	c := newChance(w.seed, streamEyes, w.looks)
	w.looks++
	r := Reading{Face: optics.FaceTarget}
	switch v := w.Shadow(); {
	case v.Unseen == LaserDark:
		r.Told = CantSee
	case !v.Visible:
		r.Told = Gone
	default:
		w.read(&r, v.Seen, c)
		r.Told = Place
		if r.MM == 0 {
			r.Told = Dead
		}
	}
	return r
}
