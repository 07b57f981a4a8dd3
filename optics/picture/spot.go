package picture

import (
	"math"
	"slices"
)

// spotSeen is a red spot with a core that is brighter than its halo, px of the
// planes.
type spotSeen struct {
	at     Point   // middle of the core
	radius float64 // of the core
	round  float64 // the part of the rays that meet the core's edge where a circle has it
	halo   float64 // the part of the rays on which it is red right outside of the core
	white  float64 // the core's level in green and blue over that in red: 1 where it is burnt white
	strays float64 // px between the middle by area and that by the edge
	flux   float64 // of green and blue, in linear light
	red    float64 // how much red there is in its halo
	edge   float64 // px from 3/4 to 1/4
}

const (
	redLeast   = 12 // grey levels by which a halo is redder than what is about it
	spotRays   = 48
	spotPixels = 12 // the fewest of a halo
)

// glow is a red patch in which no spot could be measured: where it is the
// reddest, and how much red there is in it.
type glow struct {
	at  Point
	red float64
}

// spots returns the red spots of a picture, and what else in it glows red.
func spots(c colours, cold plane) (out []spotSeen, more []glow) {
	red := c.redness(cold).smoothed()
	for _, b := range red.blobs(redLeast) {
		if b.pixels < spotPixels || b.reddest < 1.6*redLeast {
			continue
		}
		s, ok := spotIn(c, cold, red, b)
		if !ok {
			more = append(more, glow{b.at, b.red})
			continue
		}
		s.red = b.red
		// A halo that lies across a dark ring is two patches about one core.
		again := slices.IndexFunc(out, func(o spotSeen) bool { return o.at.sub(s.at).len() < math.Max(2, o.radius) })
		if again >= 0 {
			out[again].red += s.red
			continue
		}
		out = append(out, s)
	}
	return out, more
}

// spotIn measures the spot in a red patch.
func spotIn(c colours, cold, red plane, b blob) (spotSeen, bool) {
	soft := softly{cold}
	hot, redMost := Point{}, 0.0
	b.each(c.r, 1, func(x, y int) { redMost = math.Max(redMost, float64(c.r.v[y*cold.w+x])) })
	best := -1.0
	var floor []float64
	b.each(c.r, 1, func(x, y int) {
		i := y*cold.w + x
		if v := soft.at(x, y); float64(c.r.v[i]) > redMost-10 && v > best {
			best, hot = v, Point{float64(x), float64(y)}
		}
		if float64(red.v[i]) > b.reddest/2 {
			floor = append(floor, float64(cold.v[i]))
		}
	})
	base := median(floor)
	if best < base+10 {
		return spotSeen{}, false
	}
	var s spotSeen
	for _, part := range [3]float64{0.5, 0.68, 0.84} { // higher, where it runs out into a bright ground
		if part > 0.5 && best < 0.8*redMost {
			break // only what is burnt does
		}
		half := base + part*(best-base)
		area := cold.patch(hot, float32(half), b.pixels+2000)
		if len(area) == 0 {
			continue
		}
		s = coreOf(cold, area, half, math.Max(0, base))
		s.edgeOf(cold, red, best, 2*half-best)
		if s.isSpot() {
			s.white = s.whiteness(c.r, cold)
			return s, true
		}
	}
	return s, false
}

// isSpot reports whether the core is round and lies in red.
func (s spotSeen) isSpot() bool { return s.round >= roundLeast && s.halo >= haloLeast }

// coreOf returns the spot whose core is the pixels above half.
func coreOf(cold plane, area []int, half, base float64) spotSeen {
	s := spotSeen{radius: math.Sqrt(float64(len(area)) / math.Pi)}
	weights := 0.0
	for _, i := range area {
		w := float64(cold.v[i]) - half
		s.at = s.at.add(Point{float64(i % cold.w), float64(i / cold.w)}.scale(w))
		weights += w
		s.flux += linearOf(float64(cold.v[i])/255) - linearOf(base/255)
	}
	s.at = s.at.scale(1 / math.Max(weights, 1e-9))
	return s
}

// blurMost is as much as a picture that is fit to be measured is blurred by, px,
// 1σ of a Gaussian; what lies between three quarters and a quarter of its edge is
// 1.35 σ.
const blurMost = 2.0

// whiteness returns how near the middle of the core is to white, as if it were
// not blurred.
func (s spotSeen) whiteness(red, cold plane) float64 {
	var r, c float64
	reach := math.Max(1, 0.35*s.radius)
	for y := -reach; y <= reach; y++ {
		for x := -reach; x <= reach; x++ {
			if math.Hypot(x, y) <= reach {
				at := s.at.add(Point{x, y})
				r, c = r+red.at(at), c+cold.at(at)
			}
		}
	}
	blurPx := clamp(s.edge/1.35, 0.3, blurMost)
	sharp := 1 - math.Exp(-s.radius*s.radius/(2*blurPx*blurPx))
	return c / math.Max(r, 1) / math.Max(sharp, 0.5)
}

// edgeOf looks at the core's edge.
func (s *spotSeen) edgeOf(cold, red plane, best, base float64) {
	var points []Point
	var width []float64
	for i := range spotRays {
		angle := 2 * math.Pi * float64(i) / spotRays
		dir := Point{math.Cos(angle), math.Sin(angle)}
		r := [3]float64{}
		for k, part := range [3]float64{0.75, 0.5, 0.25} {
			r[k] = cold.falls(s.at, dir, base+part*(best-base), 2.2*s.radius+4)
		}
		if r[1] > 0 {
			points = append(points, s.at.add(dir.scale(r[1])))
			if red.at(s.at.add(dir.scale(r[1]+0.3*s.radius+1.5))) > redLeast {
				s.halo += 1. / spotRays
			}
		}
		if r[0] > 0 && r[2] > 0 {
			width = append(width, r[2]-r[0])
		}
	}
	s.edge = median(width)
	c, err := FitGeometric(points)
	if err != nil {
		return
	}
	s.strays = c.Centre.sub(s.at).len()
	for _, p := range points {
		if math.Abs(p.sub(c.Centre).len()-c.Radius) < math.Max(0.4, 0.12*c.Radius) {
			s.round += 1. / spotRays
		}
	}
}

// falls returns how far along a ray the level falls below a level, 0 if it does
// not within most.
func (p plane) falls(from, dir Point, below, most float64) float64 {
	const pitch = 0.25
	last := p.at(from)
	for r := pitch; r < most; r += pitch {
		v := p.at(from.add(dir.scale(r)))
		if v < below {
			return r - pitch*(below-v)/math.Max(last-v, 1e-9)
		}
		last = v
	}
	return 0
}

// softly reads a plane with each pixel mixed with those beside it.
type softly struct{ plane }

func (p softly) at(x, y int) float64 {
	x, y = min(max(x, 1), p.w-2), min(max(y, 1), p.h-2)
	i := y*p.w + x
	return float64(4*p.v[i]+p.v[i-1]+p.v[i+1]+p.v[i-p.w]+p.v[i+p.w]) / 8
}

// patch returns the pixels about a place that are connected and above least; none
// if they are more than most.
func (p plane) patch(at Point, least float32, most int) []int {
	first := int(at.Y)*p.w + int(at.X)
	seen := map[int]bool{first: true}
	todo := []int{first}
	for n := 0; n < len(todo); n++ {
		i := todo[n]
		x := i % p.w
		for _, k := range [4]int{i - 1, i + 1, i - p.w, i + p.w} {
			if k < 0 || k >= len(p.v) || seen[k] || p.v[k] < least || k == i-1 && x == 0 || k == i+1 && x == p.w-1 {
				continue
			}
			seen[k] = true
			todo = append(todo, k)
			if len(todo) > most {
				return nil
			}
		}
	}
	return todo
}
