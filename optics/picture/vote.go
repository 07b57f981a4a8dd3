package picture

import (
	"cmp"
	"math"
	"slices"
)

// An edge votes for the middles of the circles that it may be a piece of. The
// pair of circles that is looked for is concentric and its ratio is known, so
// that a middle gets the votes of both; and the edges of a band run opposite
// ways, up into it and down out of it, which the edges of a lit ball, a burnt
// spot or a tube in a tube do not.

// pairShape is a pair of concentric circles whose size in the picture is not
// known: inner radius over outer.
type pairShape struct {
	ratio  float64
	alone  bool    // one circle only, brighter outside
	mostPx float64 // the largest outer radius, in pixels of the largest size
	// way is +1 for a band that is brighter than what is about it, −1 for a
	// darker one, 0 for either.
	way int
}

// candidate is where a pair may be: outer radius and middle, px of the plane,
// and the part of both circumferences that voted for it.
type candidate struct {
	at    Point
	outer float64
	score float64
}

// edge is a pixel at which the picture is steepest; dir is uphill, of length 1.
type edge struct{ at, dir Point }

// smallest and largest outer radius that is voted on at one size of the picture,
// px; a larger one is looked for in the picture made half as large.
const (
	voteLeast = 10.5
	voteMost  = 23.0
	voteStep  = 1.06
)

// voteOn is the most pixels that are voted on; of a larger picture the halves
// are.
const voteOn = 1_500_000

// vote returns the best candidates of all sizes of a picture, best first. Each
// size is half of the one before; places and radii are those of the first.
func vote(sizes []plane, s pairShape, most int) []candidate {
	var all []candidate
	scale := 1.0
	for _, p := range sizes {
		if high := math.Min(voteMost, s.mostPx/scale); high > voteLeast && p.w*p.h <= voteOn {
			all = append(all, voteAt(p.smoothed(), s, voteLeast, high, scale)...)
		}
		scale *= 2
	}
	slices.SortStableFunc(all, func(a, b candidate) int { return cmp.Compare(b.score, a.score) })
	var best []candidate
	for _, c := range all {
		if len(best) == most {
			break
		}
		if !slices.ContainsFunc(best, c.like) {
			best = append(best, c)
		}
	}
	return best
}

// like reports whether two candidates are about the same pair.
func (c candidate) like(d candidate) bool {
	return c.at.sub(d.at).len() < 0.15*c.outer && math.Abs(math.Log(c.outer/d.outer)) < 0.15
}

// voteAt votes at one size of the picture; scale is what its pixels are of the
// plane's.
func voteAt(p plane, s pairShape, low, high, scale float64) []candidate {
	edges := edgesOf(p)
	bright, dark := newPlane(p.w, p.h), newPlane(p.w, p.h)
	var out []candidate
	for outer := low; outer <= high; outer *= voteStep {
		clear(bright.v)
		clear(dark.v)
		inner := outer * s.ratio
		for _, e := range edges {
			if s.alone {
				bright.add(e.at.sub(e.dir.scale(outer)))
				continue
			}
			if s.way >= 0 {
				bright.add(e.at.add(e.dir.scale(outer))) // uphill is into the band
				bright.add(e.at.sub(e.dir.scale(inner)))
			}
			if s.way <= 0 {
				dark.add(e.at.sub(e.dir.scale(outer)))
				dark.add(e.at.add(e.dir.scale(inner)))
			}
		}
		out = append(out, peaks(bright.smoothed(), dark.smoothed(), outer, 2*math.Pi*(outer+inner), scale)...)
	}
	return out
}

func (p plane) add(at Point) {
	x, y := int(math.Floor(at.X+0.5)), int(math.Floor(at.Y+0.5))
	if x >= 0 && y >= 0 && x < p.w && y < p.h {
		p.v[y*p.w+x]++
	}
}

// voteFloor is the least that is looked at, as a part of what a pair would get
// from whole circles without noise (smoothing spreads a middle over nine
// pixels, and a quarter stays).
const voteFloor = 0.04

// peaks returns where a pair of the outer radius got the most votes. Votes for a
// band the other way round count half: one that lies across a bright and a dark
// reflection has both.
func peaks(bright, dark plane, outer, all, scale float64) []candidate {
	sum := newPlane(bright.w, bright.h)
	for i := range sum.v {
		a, b := bright.v[i], dark.v[i]
		sum.v[i] = max(a, b) + min(a, b)/2
	}
	var out []candidate
	for y := 1; y < sum.h-1; y++ {
		for x := 1; x < sum.w-1; x++ {
			v := sum.v[y*sum.w+x]
			if float64(v) < voteFloor*all || !sum.isPeak(x, y) {
				continue
			}
			out = append(out, candidate{Point{float64(x), float64(y)}.enlarged(scale), outer * scale, float64(v) / all})
		}
	}
	return out
}

func (p plane) isPeak(x, y int) bool {
	v := p.v[y*p.w+x]
	for dy := -1; dy <= 1; dy++ {
		for dx := -1; dx <= 1; dx++ {
			if p.v[(y+dy)*p.w+x+dx] > v {
				return false
			}
		}
	}
	return true
}

// enlarged returns where a pixel of a smaller plane lies in the larger one.
func (p Point) enlarged(scale float64) Point {
	return Point{(p.X+0.5)*scale - 0.5, (p.Y+0.5)*scale - 0.5}
}

// edgesOf returns the pixels that are steeper than the noise and than their
// neighbours up and down the slope.
func edgesOf(p plane) []edge {
	gx, gy := newPlane(p.w, p.h), newPlane(p.w, p.h)
	steep := newPlane(p.w, p.h)
	for y := 1; y < p.h-1; y++ {
		a, b, c := p.row(y-1), p.row(y), p.row(y+1)
		for x := 1; x < p.w-1; x++ {
			i := y*p.w + x
			dx := 3*(a[x+1]-a[x-1]) + 10*(b[x+1]-b[x-1]) + 3*(c[x+1]-c[x-1])
			dy := 3*(c[x-1]-a[x-1]) + 10*(c[x]-a[x]) + 3*(c[x+1]-a[x+1])
			gx.v[i], gy.v[i] = dx/32, dy/32
			steep.v[i] = float32(math.Sqrt(float64(dx*dx+dy*dy))) / 32
		}
	}
	least := float32(math.Max(0.35, 3.5*steep.median()))
	var out []edge
	for y := 2; y < p.h-2; y++ {
		for x := 2; x < p.w-2; x++ {
			i := y*p.w + x
			m := steep.v[i]
			if m < least {
				continue
			}
			ux, uy := gx.v[i]/m, gy.v[i]/m
			sx, sy := int(math.Round(float64(ux))), int(math.Round(float64(uy)))
			if step := sy*p.w + sx; steep.v[i+step] > m || steep.v[i-step] > m {
				continue
			}
			out = append(out, edge{Point{float64(x), float64(y)}, Point{float64(ux), float64(uy)}})
		}
	}
	return out
}

// median returns the middle of the levels, from every seventh pixel.
func (p plane) median() float64 {
	var some []float32
	for i := 0; i < len(p.v); i += 7 {
		some = append(some, p.v[i])
	}
	if len(some) == 0 {
		return 0
	}
	slices.Sort(some)
	return float64(some[len(some)/2])
}
