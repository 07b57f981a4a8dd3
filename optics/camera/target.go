package camera

import (
	"image"
	"math"

	"spotward/optics"
)

// Target draws the laser's slanted face in the light that comes back of a spread
// beam, from behind, along the tube: its hole and rings, and the shadow of the
// centre ring. shadow is the shadow's middle from the hole, mm across the beam, as
// one stands there. The shadow's radii are (2 − S/f) times the ring's.
func Target(t optics.Telescope, shadow optics.Dial, h Hold) *image.RGBA {
	h = h.with(0, 500, 5*t.Target.FaceRadiusMM, 0.02)
	k := 2 - t.PathMM()/t.FocalLengthMM
	up := t.FocuserDial(optics.Behind)
	s := face{
		target: t.Target, light: h.Light, beam: beamPart, shadow: vec{shadow.Right, shadow.Up, 0},
		inner: k * t.RingInnerMM, outer: k * t.RingOuterMM, rise: vec{up.Right, up.Up, 0},
	}
	at := optics.AtHour(h.Hour, h.AsideMM)
	if h.Dark {
		s.beam = 0
	}
	return h.picture(vec{at.Right, at.Up, h.BackMM}, s.seen)
}

// face is a scene: the slanted face of a laser in a focuser. Toward the focuser
// it rises toward the camera.
type face struct {
	target       optics.Target
	light        float64
	beam         float64 // of what burns a picture, in red
	shadow       vec
	inner, outer float64
	rise         vec // the focuser's direction
}

// How the light lies on the face (by eye, from memory).
const (
	beamPart   = 0.45 // as face.beam
	beamCold   = 0.12 // of that, in green and blue
	shadowDeep = 0.7
	softMM     = 0.25 // of the shadow's edge
	lineMM     = 0.15 // half a printed line
	linePart   = 0.5
)

// seen returns what a ray from behind meets.
func (s face) seen(from, dir vec) shade {
	// z = q·rise, so that k = (from·rise − from.z)/(dir.z − dir·rise)
	at := from.along(dir, (from.dot(s.rise)-from.z)/(dir.z-dir.dot(s.rise)))
	q := vec{at.x, at.y, 0}
	r := q.len()
	if r < s.target.HoleRadiusMM || r > s.target.FaceRadiusMM {
		return grey(0.001)
	}
	off := q.plus(s.shadow.scale(-1)).len()
	dark := shadowDeep * (step((off-s.inner)/softMM) - step((off-s.outer)/softMM))
	beam := s.beam * math.Exp(-math.Pow(r/(0.9*s.target.FaceRadiusMM), 2)) * (1 - dark)
	paper := 1.0
	if s.onLine(q) {
		paper = linePart
	}
	return shade{paper * (s.light + 2*beam), paper * (s.light + beamCold*2*beam)}
}

func step(x float64) float64 { return 1 / (1 + math.Exp(-x)) }

// onLine reports whether a point is on one of the printed rings.
func (s face) onLine(q vec) bool {
	r := q.len()
	if s.target.AlongFace {
		r = math.Hypot(r, q.dot(s.rise))
	}
	n := math.Round((r - s.target.HoleRadiusMM) / s.target.RingStepMM)
	return n >= 1 && n <= float64(s.target.RingCount) && math.Abs(r-s.target.HoleRadiusMM-n*s.target.RingStepMM) < lineMM
}
