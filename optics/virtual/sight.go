package virtual

import (
	"math"

	"spotward/optics"
)

// Unseen says why no spot is to be seen on a face.
type Unseen string

// Why nothing is to be seen. LaserDark: it is off, or its battery is empty.
// NoBeam: the beam never gets that far. Beyond: it lands beside the face.
// InHole: it goes down the target hole, or into the drawtube. TurnedAway: the
// target face does not look toward one. Dim: too little comes back. Carded: no
// card is there to catch it.
const (
	LaserDark  Unseen = "laser dark"
	NoBeam     Unseen = "no beam"
	Beyond     Unseen = "beyond"
	InHole     Unseen = "in the hole"
	TurnedAway Unseen = "turned away"
	Dim        Unseen = "dim"
	NoCard     Unseen = "no card"
)

// Dot is a spot of light on a face.
type Dot struct {
	At      optics.Tube // from the middle of the face
	Seen    optics.Seen // the same as seen with 12 toward the focuser
	WidthMM float64     // across, where the light has dropped to 1/e²
	Bright  float64     // 0 to 1: 1 dazzles, 0.3 is a spot on clean glass
}

// Sight is what is truly to be seen on a face.
type Sight struct {
	Face    optics.Face
	Dot     // the spot that is read; where it would be, if it is not to be seen
	Visible bool
	Unseen  Unseen // why it is not to be seen
	// Others are further dots on the face: on the secondary the outgoing spot
	// and the return spot, both from the tube's axis; elsewhere reflections of
	// the laser's own window.
	Outgoing, Return Dot
	Ghosts           []Dot
	Wall             bool // beside the primary, on the wall of the tube
	OnRing           bool // on the ring, where it flares
	InRing           bool // inside it, where it is dim again
	Merged           bool // on the secondary: one spot, not two
	InHole           bool // seen going down the hole
	// Down is the part of the light that goes down the hole.
	Down float64
	// Glow is the rim of the hole as the spot lights it: toward its brighter
	// side, as long as the contrast, 0 to 1. GlowAt is the same in the tube's
	// frame.
	Glow   optics.Seen
	GlowAt optics.Tube
	// Leaves: the beam goes out of the open end, or onto the card over it.
	Leaves     bool
	LeavesAt   optics.Tube // from the tube's axis
	LeavesSeen optics.Seen // from the sky end
	Carded     bool        // the card is over the open end
}

// How bright a spot is: on clean glass, on paper, and what cannot be seen.
const (
	onGlass  = 0.3
	onPaper  = 1
	tooFaint = 0.03
	windowIs = 0.04 // what a window of glass reflects, about
)

// MouthMM is the radius of the drawtube's bore with an adapter in it, from
// memory.
const MouthMM = 16

// haloMM is how wide the scattered light about a spot is that lights the rim
// of a hole: at it a spot 0.7 mm off the middle is just told from one in it.
const haloMM = 5

// evenGlow is the contrast about a hole that is just seen: that of a spot
// 0.7 mm off in a hole of 3 mm.
const evenGlow = 0.32

// Uneven reports whether one side of the hole's rim glows brighter, as far as
// anybody can tell.
func (v Sight) Uneven() bool { return v.Glow.Len() > evenGlow }

// Sight returns what is truly to be seen on a face.
func (w *World) Sight(f optics.Face) Sight {
	s, lit := w.beam()
	v := Sight{Face: f, Carded: w.card}
	if !lit {
		v.Unseen = LaserDark
		if w.lit() {
			v.Unseen = NoBeam
		}
		return v
	}
	v.Leaves, v.LeavesAt = s.Leaves, s.LeavesAt
	v.LeavesSeen = seenOn(optics.FaceCard, w.real, s.LeavesAt)
	switch f {
	case optics.FacePrimary:
		w.lookAtPrimary(&v, s)
	case optics.FaceSecondary:
		w.lookAtSecondary(&v, s)
	case optics.FaceMouth:
		w.lookAtMouth(&v, s)
	case optics.FaceTarget:
		w.lookAtTarget(&v, s)
	case optics.FaceCard:
		w.lookAtCard(&v, s)
	}
	v.Seen = seenOn(f, w.real, v.At)
	v.Glow = seenOn(f, w.real, v.GlowAt)
	v.Bright *= w.power()
	if v.Unseen == "" && v.Bright < tooFaint {
		v.Unseen = Dim
	}
	v.Visible = v.Unseen == ""
	return v
}

func (w *World) lookAtPrimary(v *Sight, s optics.Spots) {
	v.At = s.P.Sub(w.ring)
	v.WidthMM = w.light().on(w.real.PathMM()).width()
	v.Wall = s.Wall
	on := w.onRing(s)
	v.OnRing = on > 0.3
	v.InRing = !v.OnRing && v.At.Len() < w.real.RingInnerMM
	v.Bright = onGlass + on*(onPaper-onGlass)
	if g, ok := w.ghost(s); ok {
		v.Ghosts = []Dot{w.dot(v.Face, g.P.Sub(w.ring), v.WidthMM, windowIs)}
	}
}

// lookAtSecondary: what is read is the return spot from the outgoing one.
func (w *World) lookAtSecondary(v *Sight, s optics.Spots) {
	back := w.light().on(w.real.PathMM()).focused(w.real.FocalLengthMM).on(w.real.FromPrimaryMM)
	v.At, v.WidthMM, v.Bright = s.Q, back.width(), onGlass*w.comesBack(s)
	v.Outgoing = w.dot(v.Face, s.Outgoing, w.light().on(w.real.HoleFromAxisMM).width(), onGlass)
	v.Return = w.dot(v.Face, s.Return, v.WidthMM, v.Bright)
	v.Merged = s.Q.Len() < (v.Outgoing.WidthMM+v.WidthMM)/3
	switch {
	case s.Wall:
		v.Unseen = NoBeam
	case w.missesSecondary(s.Return):
		v.Unseen = Beyond
	}
}

func (w *World) lookAtMouth(v *Sight, s optics.Spots) {
	v.At, v.WidthMM, v.Bright = w.atMouth(s), w.returnWidth(), onPaper*w.comesBack(s)
	switch {
	case s.Wall || w.missesSecondary(s.Return):
		v.Unseen = NoBeam
	case v.At.Len() < MouthMM:
		v.Unseen, v.InHole = InHole, true
	}
}

func (w *World) lookAtTarget(v *Sight, s optics.Spots) {
	v.At, v.WidthMM = s.T, w.returnWidth()
	hole := w.real.Target.HoleRadiusMM
	v.Down = shareWithin(v.WidthMM, s.T.Len(), hole)
	v.Bright = onPaper * w.comesBack(s) * (1 - v.Down)
	switch {
	case s.Wall || w.missesSecondary(s.Return) || w.atMouth(s).Len() > MouthMM:
		v.Unseen = NoBeam
	case s.T.Len() > w.real.Target.FaceRadiusMM:
		v.Unseen = Beyond
	case w.laser.facesAway():
		v.Unseen = TurnedAway
	default:
		w.lookDown(v, s)
	}
	if g, ok := w.ghost(s); ok && v.Unseen == "" && s.T.Add(g.T).Len() < w.real.Target.FaceRadiusMM {
		v.Ghosts = []Dot{w.dot(v.Face, s.T.Add(g.T), v.WidthMM, windowIs)}
	}
}

// lookDown is the last of the way: a spot that goes down the hole leaves only
// the glow about its rim.
func (w *World) lookDown(v *Sight, s optics.Spots) {
	if v.Down < 0.5 || w.comesBack(s) < 0.2 {
		return
	}
	hole := w.real.Target.HoleRadiusMM
	if n := s.T.Len(); n > 0 {
		v.GlowAt = s.T.Scale(math.Tanh(4*hole*n/(haloMM*haloMM)) / n)
	}
	v.InHole = v.Down > 0.97
	if v.InHole {
		v.Unseen = InHole
	}
}

func (w *World) lookAtCard(v *Sight, s optics.Spots) {
	up := w.light().on(w.real.PathMM()).focused(w.real.FocalLengthMM).on(w.real.SkyEndMM)
	v.At, v.WidthMM, v.Bright = s.LeavesAt, up.width(), onPaper*w.comesBack(s)
	switch {
	case !s.Leaves:
		v.Unseen = NoBeam
	case !w.card:
		v.Unseen = NoCard
	}
}

func (w *World) dot(f optics.Face, at optics.Tube, widthMM, bright float64) Dot {
	return Dot{At: at, Seen: seenOn(f, w.real, at), WidthMM: widthMM, Bright: bright * w.power()}
}
