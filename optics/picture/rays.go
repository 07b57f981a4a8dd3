package picture

import "math"

// crossing is where the edge of a circle was met on a ray from its middle.
type crossing struct {
	at    Point   // where
	angle float64 // of the ray, rad
	step  float64 // how the level changes there, going out: grey levels
	outer bool    // of the pair's outer circle
	draw  int     // 0 or 1: of which of two draws of points it is
}

// rays is how many rays go out from a middle.
const rays = 120

// raySpan is how far along a ray, from where an edge is looked for, its levels
// are compared: px of the plane that is measured in.
const raySpan = 2.5

// crossingAt returns where the ray from a middle, between two radii, meets the
// steepest step. way +1 asks for one up, −1 for one down, 0 for either.
func crossingAt(p plane, middle Point, angle, from, to float64, way int) (crossing, bool) {
	const pitch = 0.5
	dir := Point{math.Cos(angle), math.Sin(angle)}
	n := int((to-from)/pitch) + 1
	if n < 3 || !p.inside(middle.add(dir.scale(from-raySpan))) || !p.inside(middle.add(dir.scale(to+raySpan))) {
		return crossing{}, false
	}
	steps, best := make([]float64, n), -1
	for i := range steps {
		r := from + pitch*float64(i)
		steps[i] = stepOn(p, middle, dir, r)
		if i == 0 || i == n-1 || steps[i]*float64(way) < 0 {
			continue
		}
		if best < 0 || math.Abs(steps[i]) > math.Abs(steps[best]) {
			best = i
		}
	}
	if best < 0 {
		return crossing{}, false
	}
	a, b, c := math.Abs(steps[best-1]), math.Abs(steps[best]), math.Abs(steps[best+1])
	if a > b || c > b { // it goes on outside of what is asked for
		return crossing{}, false
	}
	off := 0.0
	if d := a - 2*b + c; d < 0 {
		off = clamp((a-c)/(2*d), -0.5, 0.5)
	}
	r := from + pitch*(float64(best)+off)
	return crossing{at: middle.add(dir.scale(r)), angle: angle, step: steps[best]}, true
}

// stepOn returns how the level changes about radius r on a ray: the next 2.5
// pixels outside less those inside, the nearer weighing more, and the same a
// little beside the ray.
func stepOn(p plane, middle, dir Point, r float64) float64 {
	across := Point{-dir.Y, dir.X}
	sum, weights := 0.0, 0.0
	for _, side := range [3]float64{-1, 0, 1} {
		foot := middle.add(dir.scale(r)).add(across.scale(side))
		for _, d := range [3]float64{0.5, 1.5, 2.5} {
			w := 3 - d
			sum += w * (p.at(foot.add(dir.scale(d))) - p.at(foot.sub(dir.scale(d))))
			weights += w
		}
	}
	return sum / weights
}
