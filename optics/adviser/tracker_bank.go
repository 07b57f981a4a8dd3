package adviser

import (
	"cmp"
	"math"
	"slices"

	"spotward/optics"
)

// maxDim is the longest state: a spot, a response a screw and a pull a lock,
// two numbers each.
const maxDim = 2 + 4*maxScrews

// screwAt and lockAt return where in the state the response of screw i, or the
// pull of lock i, begins. The spot begins at 0.
func screwAt(i int) int { return 2 + 2*i }

func lockAt(screws, i int) int { return 2 + 2*screws + 2*i }

// gauss is a normal distribution over the state: n means, and n·n covariances
// row by row. What is done to it is done in place; see clone.
type gauss struct {
	n    int
	m, p []float64
}

func newGauss(n int) gauss { return gauss{n, make([]float64, n), make([]float64, n*n)} }

func (g *gauss) clone() gauss {
	v := make([]float64, g.n+g.n*g.n)
	copy(v, g.m)
	copy(v[g.n:], g.p)
	return gauss{g.n, v[:g.n:g.n], v[g.n:]}
}

// row returns the covariances of number i.
func (g *gauss) row(i int) []float64 { return g.p[i*g.n : (i+1)*g.n] }

// forget makes the pair at a independent of everything else, about zero.
func (g *gauss) forget(a int, sigma float64) {
	for i := a; i < a+2; i++ {
		g.m[i] = 0
		for j := range g.n {
			g.p[i*g.n+j], g.p[j*g.n+i] = 0, 0
		}
		g.p[i*g.n+i] = sigma * sigma
	}
}

// correlate adds k·u·vᵀ to the covariance of the pair at a with the pair at b.
func (g *gauss) correlate(a, b int, u, v optics.Tube, k float64) {
	x, y := g.row(a), g.row(a+1)
	x[b] += k * u.X * v.X
	x[b+1] += k * u.X * v.Y
	y[b] += k * u.Y * v.X
	y[b+1] += k * u.Y * v.Y
}

// widen adds an independent error to the pair at a.
func (g *gauss) widen(a int, by optics.Cov) {
	x, y := g.row(a), g.row(a+1)
	x[a] += by.XX
	x[a+1] += by.XY
	y[a] += by.XY
	y[a+1] += by.YY
}

// move adds turns times the pair at a to the spot; spread is the 1σ error of
// turns.
func (g *gauss) move(a int, turns, spread float64) {
	r, c, s := g.at(a), g.cov(a), spread*spread
	noise := optics.Cov{XX: s * (r.X*r.X + c.XX), XY: s * (r.X*r.Y + c.XY), YY: s * (r.Y*r.Y + c.YY)}
	for c := range 2 {
		g.m[c] += turns * g.m[a+c]
		to, from := g.row(c), g.row(a+c)
		for j := range to {
			to[j] += turns * from[j]
		}
	}
	for i := range g.n {
		row := g.row(i)
		row[0] += turns * row[a]
		row[1] += turns * row[a+1]
	}
	g.widen(0, noise)
}

// likelihood returns the log likelihood of a reading z of the spot, without the
// constant.
func (g *gauss) likelihood(z optics.Belief) float64 {
	d, u, _, det := g.pull(z)
	return -(d.X*u.X + d.Y*u.Y + math.Log(det)) / 2
}

// see conditions on a reading z of the spot.
func (g *gauss) see(z optics.Belief) {
	_, u, inv, _ := g.pull(z)
	p0, p1 := append([]float64(nil), g.row(0)...), append([]float64(nil), g.row(1)...)
	for i := range g.n {
		k0, k1 := p0[i]*inv.XX+p1[i]*inv.XY, p0[i]*inv.XY+p1[i]*inv.YY
		g.m[i] += p0[i]*u.X + p1[i]*u.Y
		row := g.row(i)
		for j := range row {
			row[j] -= k0*p0[j] + k1*p1[j]
		}
	}
}

// pull returns by how much a reading z is off the expected spot, u = inv·d, and
// the inverse and the determinant of the covariance of d.
func (g *gauss) pull(z optics.Belief) (d, u optics.Tube, inv optics.Cov, det float64) {
	s := z.Cov.Add(g.cov(0))
	det = s.XX*s.YY - s.XY*s.XY
	d, inv = z.At.Sub(g.at(0)), optics.Cov{XX: s.YY / det, XY: -s.XY / det, YY: s.XX / det}
	return d, optics.Tube{X: inv.XX*d.X + inv.XY*d.Y, Y: inv.XY*d.X + inv.YY*d.Y}, inv, det
}

func (g *gauss) at(a int) optics.Tube { return optics.Tube{X: g.m[a], Y: g.m[a+1]} }

func (g *gauss) cov(a int) optics.Cov {
	return optics.Cov{XX: g.p[a*g.n+a], XY: g.p[a*g.n+a+1], YY: g.p[(a+1)*g.n+a+1]}
}

// story says which slips a hypothesis supposes, one bit a look or turn, the
// latest lowest.
type story uint64

func (s story) then(slip bool) story {
	if slip {
		return s<<1 | 1
	}
	return s << 1
}

// slipped tells whether there was a slip at the latest look or turn.
func (s story) slipped() bool { return s&1 == 1 }

// hypothesis is one way the labels can run and hands and eyes can have
// slipped, with what follows from it.
type hypothesis struct {
	weight  float64 // 0 to 1, all together 1
	asFiled bool    // the labels run as the scope's file says
	coarse  bool    // the hand is a beginner's
	slips   story
	g       gauss
}

// eachHypothesis returns a copy of bank with f done to each.
func eachHypothesis(bank []hypothesis, f func(*gauss)) []hypothesis {
	out := append([]hypothesis(nil), bank...)
	for i := range out {
		out[i].g = out[i].g.clone()
		f(&out[i].g)
	}
	return out
}

// mixed returns mean and covariance of the pair at a over the whole bank.
func mixed(bank []hypothesis, a int) optics.Belief {
	var at optics.Tube
	sum := 0.0
	for i := range bank {
		sum += bank[i].weight
		at = at.Add(bank[i].g.at(a).Scale(bank[i].weight))
	}
	at = at.Scale(1 / sum)
	var c optics.Cov
	for i := range bank {
		h := &bank[i]
		d, w := h.g.at(a).Sub(at), h.weight/sum
		v := h.g.cov(a).Add(optics.Cov{XX: d.X * d.X, XY: d.X * d.Y, YY: d.Y * d.Y})
		c = c.Add(optics.Cov{XX: w * v.XX, XY: w * v.XY, YY: w * v.YY})
	}
	return optics.Belief{At: at, Cov: c}
}

// likeliest returns the hypotheses that share the likeliest story.
func likeliest(bank []hypothesis) []hypothesis {
	best, n := likeliestStory(bank)
	out := make([]hypothesis, 0, n)
	for i := range bank {
		if bank[i].slips == best {
			out = append(out, bank[i])
		}
	}
	return out
}

// likeliestStory returns the story that weighs most, and how many hypotheses
// share it. The sums stand in a table of their own: a map costs ten times as
// much, and this is asked more often than anything else.
func likeliestStory(bank []hypothesis) (best story, n int) {
	const slots = 1 << 9 // more than twice mostHypotheses
	var sums [slots]struct {
		slips  story
		weight float64
		n      int
	}
	top := 0
	for i := range bank {
		h := &bank[i]
		at := int(uint64(h.slips) * 0x9e3779b97f4a7c15 >> (64 - 9))
		for sums[at].n > 0 && sums[at].slips != h.slips {
			at = (at + 1) % slots
		}
		sum := &sums[at]
		sum.slips, sum.weight, sum.n = h.slips, sum.weight+h.weight, sum.n+1
		if i == 0 || sum.weight > sums[top].weight {
			top = at
		}
	}
	return sums[top].slips, sums[top].n
}

// mostHypotheses and leastWeight keep the bank short, so that a long session
// costs no more than a short one.
const (
	mostHypotheses = 240
	leastWeight    = 1e-5
)

// pruned drops what hardly weighs and makes the rest sum to one, the heaviest first.
// Their places are sorted and not they, which are long.
func pruned(bank []hypothesis) []hypothesis {
	top := 0.0
	for i := range bank {
		top = math.Max(top, bank[i].weight)
	}
	kept := make([]weighted, 0, len(bank))
	for i := range bank {
		if w := bank[i].weight; !(w < leastWeight*top) {
			kept = append(kept, weighted{i, w})
		}
	}
	slices.SortFunc(kept, func(a, b weighted) int {
		return cmp.Or(cmp.Compare(b.w, a.w), a.i-b.i)
	})
	out := make([]hypothesis, min(len(kept), mostHypotheses))
	for at := range out {
		out[at] = bank[kept[at].i]
	}
	return normalised(out)
}

// weighed sets the weights from their logs, of which a constant may be missing.
func weighed(bank []hypothesis, logs []float64) []hypothesis {
	top := math.Inf(-1)
	for _, l := range logs {
		top = math.Max(top, l)
	}
	for i := range bank {
		bank[i].weight = math.Exp(logs[i] - top)
	}
	return bank
}

func normalised(bank []hypothesis) []hypothesis {
	sum := 0.0
	for i := range bank {
		sum += bank[i].weight
	}
	for i := range bank {
		bank[i].weight /= sum
	}
	return bank
}
