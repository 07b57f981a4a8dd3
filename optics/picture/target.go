package picture

import (
	"image"
	"math"

	"spotward/optics"
)

// FindShadow finds the ring's shadow on the laser's face, from the hole. The
// face is looked at from straight behind, along the tube; a flat one in the
// mirrors. The hole and the face's edge are the rulers: rulerPart is how well
// their sizes are known, 1σ as a part of them, 0 where they were measured.
func FindShadow(img image.Image, t optics.Telescope, rulerPart float64) Sight {
	s := Sight{Face: optics.FaceTarget, Missing: Hole}
	if !(t.Target.HoleRadiusMM > 0) || !(t.Target.FaceRadiusMM > t.Target.HoleRadiusMM) {
		return s
	}
	c := coloursOf(img)
	if min(c.r.w, c.r.h) < leastSide {
		return s
	}
	up := t.FocuserDial(t.Station(optics.FaceTarget))
	turn := -math.Atan2(up.Right, up.Up)
	// Red is burnt out before the others are.
	for _, p := range [2]plane{c.cold(), c.r} {
		face, q, ok := findFace(p, t.Target, turn)
		if !ok {
			continue
		}
		s.Mark = c.disc(face.at, t.Target.HoleRadiusMM*face.scale)
		s.Missing = Shadow
		on := face.light(q, t.Target)
		f, ok := measureShade(on, t.Target)
		if !ok {
			continue
		}
		s.Missing = Nothing
		middle := face.seenAt(f.at)
		s.Inner, s.Outer = c.disc(middle, f.inner*face.scale), c.disc(middle, f.outer*face.scale)
		sigma := f.sigma(face)
		return s.placed(optics.Dial{Right: f.at.X, Up: -f.at.Y}, math.Hypot(sigma, rulerPart*f.at.len()), sigma)
	}
	return s
}

// measuredShade is a shadow with what its measure is worth, mm.
type measuredShade struct {
	shadeFit
	jitter float64 // of either coordinate, from the light's scatter
	apart  float64 // between what two draws of places give
}

// A shadow takes at least this part of the light, and the light goes with it at
// least this much better than without.
const (
	depthLeast = 0.1
	misfitMost = 0.6
)

func measureShade(on []lit, t optics.Target) (measuredShade, bool) {
	if len(on) < 400 {
		return measuredShade{}, false
	}
	f, cov, without, ok := findShade(on, t.HoleRadiusMM, t.FaceRadiusMM)
	if !ok || cov == nil || f.depth < depthLeast || f.misfit > misfitMost*without {
		return measuredShade{}, false
	}
	m := measuredShade{shadeFit: f, jitter: math.Sqrt((cov.At(0, 0) + cov.At(1, 1)) / 2)}
	var at [2]Point
	for draw := range at {
		var half []lit
		for _, l := range on {
			if l.draw == draw {
				half = append(half, l)
			}
		}
		g, _, ok := f.refine(half, t.FaceRadiusMM)
		if !ok {
			return m, false
		}
		at[draw] = g.at
	}
	m.apart = at[0].sub(at[1]).len()
	return m, m.apart < 0.2 && f.outer+f.at.len() < t.FaceRadiusMM+1
}

// sigma returns the error of either coordinate, 1σ, mm.
func (m measuredShade) sigma(s slope) float64 {
	hole := math.Sqrt((s.cov.At(0, 0)+s.cov.At(1, 1))/2) / s.scale
	near := math.Sqrt((s.cov.At(5, 5)+s.cov.At(6, 6))/2) * m.outer * m.inner
	ruler := 0.007 * m.at.len()
	return math.Sqrt(4*m.jitter*m.jitter + m.apart*m.apart/9 + hole*hole + near*near + ruler*ruler + 0.004*0.004)
}
