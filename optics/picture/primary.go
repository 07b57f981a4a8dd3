package picture

import (
	"cmp"
	"image"
	"math"
	"slices"

	"spotward/optics"
)

// FindSpot finds the laser's spot on the primary, from the ring's middle. The
// ring's size is the ruler: rulerPart is how well that is known, 1σ as a part of
// it, 0 where it was measured.
func FindSpot(img image.Image, t optics.Telescope, rulerPart float64) Sight {
	s := Sight{Face: optics.FacePrimary, Missing: Ring}
	if !(t.RingInnerMM > 0) || !(t.RingOuterMM > t.RingInnerMM) {
		return s
	}
	c := coloursOf(img)
	if min(c.r.w, c.r.h) < leastSide {
		return s
	}
	cold := c.cold()
	ring, ok := findRing(cold, t.RingInnerMM, t.RingOuterMM)
	if !ok || !ring.holds(c) {
		return s
	}
	s.Inner, s.Outer = c.disc(ring.at, ring.inner), c.disc(ring.at, ring.outer)
	red, more := spots(c, cold)
	fitting, missing := pickSpot(red, more, ring, t.ApertureMM)
	s.Missing = missing
	var fits []fit
	for _, spot := range fitting {
		away := ring.straight(spot.at.sub(ring.at)).scale(1 / ring.scale)
		along, across := spotSigma(ring, spot, away.len(), t)
		fits = append(fits, fit{optics.Dial{Right: away.X, Up: -away.Y}, math.Hypot(along, rulerPart*away.len()), across, c.disc(spot.at, spot.radius)})
	}
	if missing == Nothing {
		s.Mark = fits[0].mark
		return s.placed(fits[0].at, fits[0].along, fits[0].across)
	}
	s.fits = fits
	return s
}

// leastSide is how many pixels a picture has at the least on its shorter side.
const leastSide = 100

// pickSpot returns the laser's spot, or those of which one may be it. A look at a mirror shows what else is lit as
// well, the secondary's face above all: the brightest by far is taken, and only
// where it is burnt white, for a lone spot that is not may be the reflection of
// one that is hidden. Nor is it taken beside another red glow that is as large.
func pickSpot(all []spotSeen, more []glow, ring ringSeen, apertureMM float64) ([]spotSeen, Missing) {
	onGlass := func(at Point) bool {
		return !(apertureMM > 0) || at.sub(ring.at).len()/ring.scale <= apertureMM/2
	}
	var fit []spotSeen
	for _, s := range all {
		if mm := s.radius / ring.scale; mm > coreLeastMM && mm < coreMostMM && onGlass(s.at) {
			fit = append(fit, s)
		}
	}
	if len(fit) == 0 {
		return nil, Spot
	}
	slices.SortFunc(fit, func(a, b spotSeen) int { return cmp.Compare(b.flux, a.flux) })
	spot := fit[0]
	if spot.white < burntWhite || len(fit) > 1 && spot.flux < 2*fit[1].flux {
		return slices.DeleteFunc(fit, func(s spotSeen) bool { return s.white < burntWhite }), Which
	}
	for _, g := range more {
		// What a vane cuts off from its own halo lies close to it.
		if onGlass(g.at) && g.red > spot.red/2 && g.at.sub(spot.at).len() > 8*spot.radius {
			return nil, Which
		}
	}
	return fit[:1], Nothing
}

// What a spot is, at the least: the part of its edge that is round and the part
// of its surroundings that is red, and how near its core is to white. Its core's
// radius is between these, mm.
const (
	roundLeast = 0.85
	haloLeast  = 0.6
	burntWhite = 0.87

	coreLeastMM, coreMostMM = 0.1, 4
)

// slantPart is what a slanted look down the tube does to a length on the mirror,
// 1σ as a part of it, where the ring does not show the slant: farther parts are
// drawn smaller.
const slantPart = 0.0015

// usualBloomPx is as much as the kept pictures' rings bloom.
const usualBloomPx = 0.4

// spotSigma returns the errors of the spot's place along the line from the
// ring's middle and across it, 1σ, mm.
func spotSigma(ring ringSeen, spot spotSeen, mm float64, t optics.Telescope) (along, across float64) {
	px := math.Hypot(math.Max(ring.sigmaAt, ring.apart/2), math.Max(0.1, 0.9*spot.strays))
	each := math.Hypot(px/ring.scale, 0.006)
	core := spot.radius / ring.scale
	if math.Abs(mm-t.RingInnerMM) < core || math.Abs(mm-t.RingOuterMM) < core {
		each = math.Max(each, core/2) // brighter on paper than on glass
	}
	bloom := math.Max(0, ring.bloomed()-usualBloomPx) / ring.outer
	ruler := math.Hypot(math.Hypot(ring.sigmaScale/ring.scale, bloom), slantPart)
	return math.Hypot(each, mm*ruler), math.Hypot(each, mm*slantPart/2)
}
