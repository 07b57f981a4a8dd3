package picture

import (
	"cmp"
	"math"
	"slices"
)

// looksAt is how many candidates for the ring are measured.
const looksAt = 5

// findRing returns the ring as it lies in the plane, full size.
func findRing(p plane, innerMM, outerMM float64) (ringSeen, bool) {
	sizes := append([]plane{p}, halves(p)...)
	shape := pairShape{ratio: innerMM / outerMM, mostPx: 0.25 * float64(p.h)}
	candidates := vote(sizes, shape, 60)
	for i, c := range candidates {
		candidates[i].score = c.looks(sizes, shape.ratio)
	}
	slices.SortStableFunc(candidates, func(a, b candidate) int { return cmp.Compare(b.score, a.score) })
	var best ringSeen
	for _, c := range candidates[:min(looksAt, len(candidates))] {
		size, scale := sizeFor(sizes, c.outer, 64)
		small := candidate{at: c.at.enlarged(1 / scale), outer: c.outer / scale}
		if r, ok := measureRing(sizes[size], small, innerMM, outerMM); ok && r.score > best.score {
			best = r.enlarged(scale)
		}
	}
	return best, best.score > 0
}

func (r ringSeen) enlarged(scale float64) ringSeen {
	r.at = r.at.enlarged(scale)
	r.inner, r.outer, r.scale = r.inner*scale, r.outer*scale, r.scale*scale
	r.rms, r.apart = r.rms*scale, r.apart*scale
	r.sigmaAt, r.sigmaScale = r.sigmaAt*scale, r.sigmaScale*scale
	return r
}

// sizeFor returns in which of the sizes of a picture, halves of each other, a
// length of so many pixels is no longer than most, and the length of that size's
// pixels.
func sizeFor(sizes []plane, length, most float64) (size int, scale float64) {
	for scale = 1; length/scale > most && size < len(sizes)-1; scale *= 2 {
		size++
	}
	return size, scale
}

// halves returns the plane at a half, a quarter and so on of its size.
func halves(p plane) []plane {
	var out []plane
	for min(p.w, p.h) > 40 {
		p = p.halved()
		out = append(out, p)
	}
	return out
}

// looks returns on what part of the circumference a candidate looks like a band.
func (c candidate) looks(sizes []plane, ratio float64) float64 {
	size, scale := sizeFor(sizes, c.outer, 20)
	p := sizes[size]
	at, outer := c.at.enlarged(1/scale), c.outer/scale
	noise := math.Max(1, 1.5*p.noiseAbout(at, 1.5*outer))
	const n = 48
	ways := [2]int{}
	for i := range n {
		a := 2 * math.Pi * float64(i) / n
		dir := Point{math.Cos(a), math.Sin(a)}
		in := p.at(at.add(dir.scale(outer * ratio * 0.65)))
		out := p.at(at.add(dir.scale(outer * 1.18)))
		band := (p.at(at.add(dir.scale(outer*(0.6*ratio+0.4)))) + p.at(at.add(dir.scale(outer*(0.4*ratio+0.6))))) / 2
		switch {
		case band-in > noise && band-out > noise:
			ways[0]++
		case in-band > noise && out-band > noise:
			ways[1]++
		}
	}
	return float64(max(ways[0], ways[1]))/n + float64(min(ways[0], ways[1]))/n/2 + c.score
}

// What of the ring is to be seen, or it is called missing: the part of each
// circumference and of both together, the part that is a band, and grey levels.
const (
	edgeLeast     = 0.45
	edgesLeast    = 0.62
	bandLeast     = 0.2
	contrastLeast = 4.85
)

func (r ringSeen) holds(c colours) bool {
	return r.innerSeen >= edgeLeast && r.outerSeen >= edgeLeast && r.innerSeen+r.outerSeen >= 2*edgesLeast &&
		r.banded >= bandLeast && r.contrastIn(c) >= contrastLeast && r.apart < 0.03*r.outer && r.bloomed() < math.Max(1.2, 0.025*r.outer)
}

// bloomed returns by how much both edges stand off from where the ring's size
// has them, px: what is bright is drawn wider. A ring of another shape does not
// fit by much more.
func (f pairFit) bloomed() float64 {
	return math.Abs((f.outer-f.inner)-f.scale*f.widthMM) / 2
}

// straight takes the slant out of what is seen of the mirror, px.
func (f pairFit) straight(d Point) Point {
	theta := math.Atan2(d.Y, d.X)
	return d.scale(1 / (1 + f.a*math.Cos(2*theta) + f.b*math.Sin(2*theta)))
}
