package optics

import "math"

// maxDim is the longest state: a spot, a response a screw and a pull a lock,
// two numbers each.
const maxDim = 2 + 4*maxScrews

// screwAt and lockAt return where in the state the response of screw i, or the
// pull of lock i, begins. The spot begins at 0.
func screwAt(i int) int        { return 2 + 2*i }
func lockAt(screws, i int) int { return 2 + 2*screws + 2*i }

// gauss is a normal distribution over the state. Being an array it is copied
// by assignment.
type gauss struct {
	n int
	m [maxDim]float64
	p [maxDim][maxDim]float64
}

// forget makes the pair at a independent of everything else, about zero.
func (g *gauss) forget(a int, sigma float64) {
	for i := a; i < a+2; i++ {
		g.m[i] = 0
		for j := range g.n {
			g.p[i][j], g.p[j][i] = 0, 0
		}
		g.p[i][i] = sigma * sigma
	}
}

// widen adds an independent error to the pair at a.
func (g *gauss) widen(a int, by Cov) {
	g.p[a][a] += by.XX
	g.p[a][a+1] += by.XY
	g.p[a+1][a] += by.XY
	g.p[a+1][a+1] += by.YY
}

// move adds turns times the pair at a to the spot; spread is the 1σ error of
// turns.
func (g *gauss) move(a int, turns, spread float64) {
	var noise Cov
	s := spread * spread
	noise.XX = s * (g.m[a]*g.m[a] + g.p[a][a])
	noise.XY = s * (g.m[a]*g.m[a+1] + g.p[a][a+1])
	noise.YY = s * (g.m[a+1]*g.m[a+1] + g.p[a+1][a+1])
	for c := range 2 {
		g.m[c] += turns * g.m[a+c]
		for j := range g.n {
			g.p[c][j] += turns * g.p[a+c][j]
		}
	}
	for c := range 2 {
		for i := range g.n {
			g.p[i][c] += turns * g.p[i][a+c]
		}
	}
	g.widen(0, noise)
}

// see conditions on a reading z of the spot and returns the log likelihood of
// it, without the constant.
func (g *gauss) see(z Belief) float64 {
	s := z.Cov.Add(g.cov(0))
	dx, dy := z.At.X-g.m[0], z.At.Y-g.m[1]
	det := s.XX*s.YY - s.XY*s.XY
	ix, iy, ic := s.YY/det, s.XX/det, -s.XY/det
	ux, uy := ix*dx+ic*dy, ic*dx+iy*dy
	p0, p1 := g.p[0], g.p[1]
	for i := range g.n {
		k0, k1 := p0[i]*ix+p1[i]*ic, p0[i]*ic+p1[i]*iy
		g.m[i] += p0[i]*ux + p1[i]*uy
		for j := range g.n {
			g.p[i][j] -= k0*p0[j] + k1*p1[j]
		}
	}
	return -(dx*ux + dy*uy + math.Log(det)) / 2
}

func (g *gauss) at(a int) Tube { return Tube{g.m[a], g.m[a+1]} }

func (g *gauss) cov(a int) Cov { return Cov{g.p[a][a], g.p[a][a+1], g.p[a+1][a+1]} }

// hypothesis is one way the labels can run, with what follows from it.
type hypothesis struct {
	weight  float64 // 0 to 1, all together 1
	asFiled bool    // the labels run as the scope's file says
	g       gauss
}

// eachHypothesis returns a copy of bank with f done to each.
func eachHypothesis(bank []hypothesis, f func(*gauss)) []hypothesis {
	out := append([]hypothesis(nil), bank...)
	for i := range out {
		f(&out[i].g)
	}
	return out
}

// mixed returns mean and covariance of the pair at a over the whole bank.
func mixed(bank []hypothesis, a int) Belief {
	var at Tube
	for i := range bank {
		at = at.Add(bank[i].g.at(a).Scale(bank[i].weight))
	}
	var c Cov
	for i := range bank {
		h := &bank[i]
		d, w := h.g.at(a).Sub(at), h.weight
		v := h.g.cov(a).Add(Cov{d.X * d.X, d.X * d.Y, d.Y * d.Y})
		c = c.Add(Cov{w * v.XX, w * v.XY, w * v.YY})
	}
	return Belief{at, c}
}

// seeAll conditions every hypothesis on z, weighs them by it and returns the
// likelihood of z under the whole, without the constant.
func seeAll(bank []hypothesis, z Belief) ([]hypothesis, float64) {
	out := append([]hypothesis(nil), bank...)
	ls := make([]float64, len(out))
	top := math.Inf(-1)
	for i := range out {
		ls[i] = out[i].g.see(z) + math.Log(out[i].weight)
		top = math.Max(top, ls[i])
	}
	sum := 0.0
	for i := range out {
		ls[i] = math.Exp(ls[i] - top)
		sum += ls[i]
	}
	kept := out[:0]
	for i := range out {
		if out[i].weight = ls[i] / sum; out[i].weight > leastWeight {
			kept = append(kept, out[i])
		}
	}
	return normalised(kept), sum * math.Exp(top)
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
