package picture

import (
	"math"

	"spotward/optics"
)

// lightAround is how many places are looked at on each circle about the hole.
const lightAround = 72

// lightPitch is how far these circles are apart, mm.
const lightPitch = 0.1

// light samples the face, but for its printed rings, which are narrow and drawn
// about the hole: circles across the beam, or on the slope. A file is not always
// right about which, so both are looked for.
func (s slope) light(lin plane, t optics.Target) []lit {
	soft := lin.smoothed()
	var all []lit
	for r := t.HoleRadiusMM + 0.4; r < t.FaceRadiusMM-0.5; r += lightPitch {
		for i := range lightAround {
			sin, cos := math.Sincos(2 * math.Pi * (float64(i) + 0.5) / lightAround)
			q := Point{r * cos, r * sin}
			if at := s.seenAt(q); soft.inside(at) {
				all = append(all, lit{q, soft.at(at), i / 3 % 2})
			}
		}
	}
	across := printed(all, Point.len)
	along := printed(all, s.lenOnSlope)
	var on []lit
	for i, l := range all {
		if !across[i] && !along[i] && i/lightAround%2 == 0 {
			on = append(on, l)
		}
	}
	return on
}

// lenOnSlope returns how far from the hole a point is on the slope itself: up and
// down it, √2 of what that is across the beam.
func (s slope) lenOnSlope(q Point) float64 {
	q = q.turned(-s.turn)
	return math.Hypot(q.X, math.Sqrt2*q.Y)
}

// printed reports which places lie on, or close to, a narrow dark circle, by
// their distance from the hole.
func printed(all []lit, distance func(Point) float64) []bool {
	var circles [][]float64
	at := make([]int, len(all))
	for i, l := range all {
		k := int(math.Round(distance(l.q) / lightPitch))
		for len(circles) <= k {
			circles = append(circles, nil)
		}
		at[i] = k
		circles[k] = append(circles[k], l.level)
	}
	levels := make([]float64, len(circles))
	for k, c := range circles {
		levels[k] = median(c)
	}
	dips := narrowDips(levels)
	out := make([]bool, len(all))
	for i, k := range at {
		for d := max(0, k-2); d <= min(k+2, len(dips)-1); d++ {
			out[i] = out[i] || dips[d]
		}
	}
	return out
}

// narrowDips reports where a row of levels, 0 where there is none, is much lower
// than 0.4 mm on both sides of it: a printed line is, a soft shadow is not. Next
// to the row's ends one side has to do.
func narrowDips(levels []float64) []bool {
	const aside = 4
	dips := make([]bool, len(levels))
	for k, v := range levels {
		var low, high float64
		if k >= aside {
			low = levels[k-aside]
		}
		if k+aside < len(levels) {
			high = levels[k+aside]
		}
		switch {
		case v == 0:
		case low == 0:
			dips[k] = v < 0.85*high
		case high == 0:
			dips[k] = v < 0.8*low
		default:
			dips[k] = v < 0.88*(low+high)/2
		}
	}
	return dips
}
