package picture

import "math"

// ringSeen is the centre ring as it was found in a plane.
type ringSeen struct {
	pairFit
	innerSeen, outerSeen float64    // the part of each circumference on which its edge is
	banded               float64    // the part on which the ring is brighter, or darker, than both its sides
	apart                float64    // px: between the middles that two draws of crossings give
	seen                 [rays]bool // the rays that met one of its edges
	score                float64
	sigmaAt, sigmaScale  float64 // px, px a mm: of the middle on one axis, of the scale
}

// measureRing looks for the ring's edges about a candidate.
func measureRing(p plane, c candidate, innerMM, outerMM float64) (ringSeen, bool) {
	f := pairFit{at: c.at, outer: c.outer, inner: c.outer * innerMM / outerMM, scale: c.outer / outerMM}
	gap := f.outer - f.inner
	var points []crossing
	for _, window := range [3]float64{0.42, 0.3, 0.2} {
		points = ringCrossings(p, f, math.Max(2, window*gap))
		next, ok := fitPair(points, innerMM, outerMM, f)
		if !ok {
			return ringSeen{}, false
		}
		f = next
	}
	seen := ringSeen{pairFit: f}
	seen.judge(p, points)
	seen.apart = math.Inf(1)
	var draws [2][]crossing
	for _, c := range f.used {
		draws[c.draw] = append(draws[c.draw], c)
	}
	a, okA := fitPair(draws[0], innerMM, outerMM, f)
	b, okB := fitPair(draws[1], innerMM, outerMM, f)
	if okA && okB {
		seen.apart = a.at.sub(b.at).len()
	}
	seen.sigmaAt = math.Sqrt((f.cov.At(0, 0) + f.cov.At(1, 1)) / 2)
	seen.sigmaScale = math.Sqrt(f.cov.At(2, 2))
	return seen, true
}

// ringCrossings returns where rays meet the two circles, at most window px from
// where they are thought to be. The two draws take turns by 6°, so that a
// hidden part is missing in both.
func ringCrossings(p plane, f pairFit, window float64) []crossing {
	var points []crossing
	for i := range rays {
		angle := 2 * math.Pi * float64(i) / rays
		slant := 1 + f.a*math.Cos(2*angle) + f.b*math.Sin(2*angle)
		for _, outer := range [2]bool{false, true} {
			r := f.inner
			if outer {
				r = f.outer
			}
			r *= slant
			if c, ok := crossingAt(p, f.at, angle, math.Max(1, r-window), r+window, 0); ok {
				c.outer, c.draw = outer, i/2%2
				points = append(points, c)
			}
		}
	}
	return points
}

// judge says how much of the ring is to be seen.
func (s *ringSeen) judge(p plane, points []crossing) {
	noise := p.noiseAbout(s.at, 1.6*s.outer)
	tolerance := math.Max(1, 0.03*s.outer)
	steps := map[float64][2]float64{}
	var inner, outer, banded int
	for _, c := range points {
		if math.Abs(s.off(c, 0, 0)) > tolerance || math.Abs(c.step) < math.Max(0.6, 1.2*noise) {
			continue
		}
		s.seen[int(math.Round(c.angle/(2*math.Pi)*rays))%rays] = true
		both := steps[c.angle]
		if c.outer {
			outer++
			both[1] = c.step
		} else {
			inner++
			both[0] = c.step
		}
		if both[0]*both[1] < 0 {
			banded++
		}
		steps[c.angle] = both
	}
	s.innerSeen, s.outerSeen, s.banded = float64(inner)/rays, float64(outer)/rays, float64(banded)/rays
	s.score = s.innerSeen + s.outerSeen + s.banded
}

// noiseAbout returns the pixels' scatter about a place, from the differences of
// neighbours.
func (p plane) noiseAbout(at Point, reach float64) float64 {
	var d []float64
	x0, x1 := int(clamp(at.X-reach, 1, float64(p.w-2))), int(clamp(at.X+reach, 1, float64(p.w-2)))
	y0, y1 := int(clamp(at.Y-reach, 1, float64(p.h-2))), int(clamp(at.Y+reach, 1, float64(p.h-2)))
	for y := y0; y < y1; y += 2 {
		r := p.row(y)
		for x := x0; x < x1; x += 2 {
			d = append(d, float64(2*r[x]-r[x-1]-r[x+1]))
		}
	}
	return 1.483 * medianAbs(d) / math.Sqrt(6)
}

// contrastIn returns how far the level of what is seen of the ring is from what is
// close about it, in the middle of both, as an eye weighs the colours.
func (s *ringSeen) contrastIn(c colours) float64 {
	var on, near []float64
	level := func(r float64, all *[]float64) {
		n := int(2 * r) // as many as it is long
		for i := range n {
			if !s.seen[i*rays/n] {
				continue
			}
			sin, cos := math.Sincos(2 * math.Pi * float64(i) / float64(n))
			at := s.at.add(Point{r * cos, r * sin})
			if c.g.inside(at) {
				*all = append(*all, 0.299*c.r.at(at)+0.587*c.g.at(at)+0.114*c.b.at(at))
			}
		}
	}
	close := float64(max(c.g.w, c.g.h)) / 400 // 4 pixels of 1600
	for k := range 5 {
		level(s.inner+(s.outer-s.inner)*(0.1+0.2*float64(k)), &on)
		level(s.inner-close*(1+0.25*float64(k)), &near)
		level(s.outer+close*(1+0.25*float64(k)), &near)
	}
	return math.Abs(median(on) - median(near))
}
