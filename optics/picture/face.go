package picture

import (
	"math"

	"spotward/optics"
)

// findFace returns how the face lies in the plane, and the plane in linear light.
func findFace(p plane, t optics.Target, turn float64) (slope, plane, bool) {
	sizes := append([]plane{p}, halves(p)...)
	shape := pairShape{mostPx: 0.25 * float64(p.h), alone: true}
	lin := append([]plane{p.linear()}, halves(p.linear())...)
	var best slope
	for _, c := range vote(sizes, shape, 12) {
		size, scale := sizeFor(lin, c.outer, 32)
		start := slope{at: c.at.enlarged(1 / scale), scale: c.outer / scale / t.HoleRadiusMM, turn: turn}
		if !lin[size].isHole(start.at, c.outer/scale) {
			continue
		}
		s, ok := measureFace(lin[size], start, t.HoleRadiusMM, t.FaceRadiusMM)
		if ok && s.score() > best.score() {
			s.at, s.scale = s.at.enlarged(scale), s.scale*scale
			best = s
		}
		if best.score() > 1.9 {
			break
		}
	}
	return best, lin[0], best.score() > 0
}

// isHole reports whether it is darker in a circle than about it, most of the way
// round.
func (p plane) isHole(at Point, radius float64) bool {
	darker := 0
	for i := range rays {
		sin, cos := math.Sincos(2 * math.Pi * float64(i) / rays)
		dir := Point{cos, sin}
		if p.at(at.add(dir.scale(0.55*radius))) < 0.7*p.at(at.add(dir.scale(1.35*radius))) {
			darker++
		}
	}
	return darker > rays*3/4
}

func (s slope) score() float64 { return s.holeSeen + s.plateSeen }

// measureFace fits the hole, and from it finds and fits the plate's edge too.
func measureFace(p plane, s slope, holeMM, plateMM float64) (slope, bool) {
	ok := true
	for _, w := range [3]float64{0.4, 0.3, 0.2} {
		var hole []crossing
		for _, c := range faceCrossings(p, s, holeMM, plateMM, w) {
			if !c.outer {
				hole = append(hole, c)
			}
		}
		if s, ok = fitSlope(hole, holeMM, plateMM, s, true); !ok || len(hole) < rays*2/3 {
			return s, false
		}
	}
	var points []crossing
	for _, w := range [4]float64{0.25, 0.2, 0.1, 0.08} {
		points = faceCrossings(p, s, holeMM, plateMM, w)
		if s, ok = fitSlope(points, holeMM, plateMM, s, false); !ok {
			return s, false
		}
	}
	s.holeSeen, s.plateSeen = 0, 0
	for _, c := range points {
		if math.Abs(s.off(c, holeMM, plateMM)) < math.Max(0.03*holeMM, 1/s.scale) {
			if c.outer {
				s.plateSeen += 1. / rays
			} else {
				s.holeSeen += 1. / rays
			}
		}
	}
	return s, s.holds(p, holeMM, plateMM)
}

// rulersAgree is by how much, at the most, the hole as a ruler and the plate's
// edge as a ruler may differ.
const rulersAgree = 0.05

func (s slope) holds(p plane, holeMM, plateMM float64) bool {
	differ := math.Abs(s.bloom) * (1/holeMM + 1/plateMM)
	var dark, lit, in, out float64
	for i := range rays {
		sin, cos := math.Sincos(2 * math.Pi * float64(i) / rays)
		dir := Point{cos, sin}
		dark += p.at(s.seenAt(dir.scale(0.6*holeMM))) / rays
		lit += p.at(s.seenAt(dir.scale(math.Min(1.25*holeMM, (holeMM+plateMM)/2)))) / rays
		in += p.at(s.seenAt(dir.scale(0.95 * plateMM)))
		out += p.at(s.seenAt(dir.scale(1.05 * plateMM)))
	}
	return differ < rulersAgree && s.holeSeen > 0.7 && s.plateSeen > 0.6 && dark < 0.6*lit && out < 0.6*in
}

// faceCrossings returns where rays from the hole meet its edge and the plate's.
func faceCrossings(p plane, s slope, holeMM, plateMM, window float64) []crossing {
	var points []crossing
	for i := range rays {
		angle := 2 * math.Pi * float64(i) / rays
		for _, outer := range [2]bool{false, true} {
			mm, way := holeMM-s.bloom, 1
			if outer {
				mm, way = plateMM+s.bloom, -1
			}
			// the ray on the picture
			dir := Point{math.Cos(angle), math.Sin(angle)}
			q := s.faceAt(s.at.add(dir.scale(mm * s.scale)))
			r := mm * s.scale * mm / q.len()
			w := window * mm * s.scale
			if c, ok := crossingAt(p, s.at, angle, math.Max(1, r-w), r+w, way); ok {
				c.outer, c.draw = outer, i/2%2
				points = append(points, c)
			}
		}
	}
	return points
}
