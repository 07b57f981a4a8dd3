package adviser

import (
	"math"

	"spotward/optics"
)

// particles is how many ways the mirror may stand an advice is weighed over;
// latticeStep makes a lattice of them that is even in any two dimensions.
const (
	particles   = 59
	latticeStep = 15
)

// particle is one way the mirror may stand: where the spot is from the goal,
// what each lever does a turn, and how the hands err in this move and the next.
type particle struct {
	off   optics.Tube
	per   [maxScrews]optics.Tube
	size2 [maxScrews]float64 // of per, squared
	hand  float64            // 1σ of a turn, of the turn
	err1  float64            // of the turn, in its 1σ
	err2  float64
	least float64
}

// drawn returns particles spread evenly over what is believed. It draws by a
// fixed sequence: the same belief gives the same particles.
func (k Tracker) drawn(goal optics.Tube, ls []lever) []particle {
	out := make([]particle, particles)
	dim := 2 + 2*k.cell.Screws
	var root []float64
	at, sum, rooted := -1, 0.0, -1
	for i := range out {
		for pick := (float64(i) + 0.5) / particles; sum < pick && at < len(k.bank)-1; {
			at++
			sum += k.bank[at].weight
		}
		g := &k.bank[at].g
		if rooted != at {
			root, rooted = g.root(dim), at
		}
		var z, x [maxDim]float64
		for d := range dim {
			z[d] = normalAt(i, d)
		}
		for r := range dim {
			x[r] = g.m[r]
			for c := 0; c <= r; c++ {
				x[r] += root[r*dim+c] * z[c]
			}
		}
		p := &out[i]
		p.hand = turnSpread
		if k.bank[at].coarse {
			p.hand = coarseSpread
		}
		p.off = optics.Tube{X: x[0], Y: x[1]}.Sub(goal)
		for j, l := range ls {
			p.per[j] = l.response(x[:])
			p.size2[j] = p.per[j].Dot(p.per[j])
		}
		p.err1, p.err2, p.least = normalAt(i, dim), normalAt(i, dim+1), normalAt(i, dim+2)
	}
	return out
}

// root returns the lower Cholesky root of the covariance of the first n
// numbers; what is not positive for rounding is taken as none.
func (g *gauss) root(n int) []float64 {
	l := make([]float64, n*n)
	for i := range n {
		for j := 0; j <= i; j++ {
			v := g.row(i)[j]
			for k := range j {
				v -= l[i*n+k] * l[j*n+k]
			}
			switch {
			case i == j:
				l[i*n+i] = math.Sqrt(math.Max(v, 0))
			case l[j*n+j] > 1e-9:
				l[i*n+j] = v / l[j*n+j]
			}
		}
	}
	return l
}

// normalAt returns point i of the lattice in dimension d, as a normal deviate:
// every dimension takes each of its evenly likely values once.
func normalAt(i, d int) float64 {
	step := 1
	for range d + 1 {
		step = step * latticeStep % particles
	}
	v := (float64(i*step%particles) + 0.5) / particles
	return math.Sqrt2 * math.Erfinv(2*v-1)
}
