package picture

import "math"

// blob is a patch of the picture that is redder than what is about it, px of the
// planes.
type blob struct {
	low, high Point // its corners
	pixels    int
	at        Point   // where it is the reddest
	reddest   float64 // by how many grey levels
	red       float64 // the sum of these
}

// redness returns by how much red is above what it would be at the colour of
// most of the picture: a red lamp lights all of it.
func (c colours) redness(cold plane) plane {
	share := float32(c.coldShare(cold))
	out := newPlane(cold.w, cold.h)
	for i := range out.v {
		out.v[i] = c.r.v[i] - cold.v[i]/share
	}
	return out
}

// coldShare returns how bright green and blue are of what red is, in the middle
// of all pixels that are not dark: 1 in white light, and never more.
func (c colours) coldShare(cold plane) float64 {
	const dark, least = 12, 0.3
	var shares []float64
	for i := 0; i < len(cold.v); i += 17 {
		if c.r.v[i] > dark {
			shares = append(shares, float64(cold.v[i]/c.r.v[i]))
		}
	}
	if len(shares) < len(cold.v)/17/20 {
		return 1
	}
	return clamp(median(shares), least, 1)
}

// blobs returns the patches in which p is above least, with the pixels they
// enclose left out.
func (p plane) blobs(least float32) []blob {
	seen := make([]bool, len(p.v))
	var out []blob
	var todo []int
	for first := range p.v {
		if seen[first] || p.v[first] < least {
			continue
		}
		b := blob{low: Point{math.Inf(1), math.Inf(1)}, high: Point{math.Inf(-1), math.Inf(-1)}}
		seen[first] = true
		todo = append(todo[:0], first)
		for len(todo) > 0 {
			i := todo[len(todo)-1]
			todo = todo[:len(todo)-1]
			x, y := i%p.w, i/p.w
			b.take(x, y, p.v[i])
			for _, n := range [4]int{i - 1, i + 1, i - p.w, i + p.w} {
				if n < 0 || n >= len(p.v) || seen[n] || p.v[n] < least || n == i-1 && x == 0 || n == i+1 && x == p.w-1 {
					continue
				}
				seen[n] = true
				todo = append(todo, n)
			}
		}
		out = append(out, b)
	}
	return out
}

func (b *blob) take(x, y int, v float32) {
	b.pixels++
	b.low = Point{math.Min(b.low.X, float64(x)), math.Min(b.low.Y, float64(y))}
	b.high = Point{math.Max(b.high.X, float64(x)), math.Max(b.high.Y, float64(y))}
	b.red += float64(v)
	if float64(v) > b.reddest {
		b.reddest, b.at = float64(v), Point{float64(x), float64(y)}
	}
}

// each calls do with every pixel of p in the blob's corners, and margin more.
func (b blob) each(p plane, margin int, do func(x, y int)) {
	for y := max(0, int(b.low.Y)-margin); y <= min(p.h-1, int(b.high.Y)+margin); y++ {
		for x := max(0, int(b.low.X)-margin); x <= min(p.w-1, int(b.high.X)+margin); x++ {
			do(x, y)
		}
	}
}
