package adviser

import (
	"math"

	"spotward/optics"
)

// misseenWays is how often the way a spot went is told altogether wrongly.
const misseenWays = 0.02

// Went returns the belief after somebody who watched says which way the spot
// went while screw i was turned by turns: toward way, to sigmaRad (1σ). It
// costs no look and says more than two places far from the goal do. A way
// without length says nothing.
func (k Tracker) Went(i int, turns float64, way optics.Tube, sigmaRad float64) Tracker {
	k.told[i] = true
	n := way.Len()
	if n == 0 || turns == 0 {
		return k
	}
	way = way.Scale(math.Copysign(1/n, turns))
	aside := optics.Tube{X: -way.Y, Y: way.X}
	a := screwAt(i)
	out := make([]hypothesis, len(k.bank))
	logs := make([]float64, len(out))
	for j, h := range k.bank {
		r := h.g.at(a)
		logs[j] = math.Log(h.weight) + math.Log(misseenWays)
		if along := r.Dot(way); along > 0 {
			// How likely the angle is, as far as the hypothesis lets it vary.
			g := h.g.clone()
			l := g.tell(a, aside, 0, sigmaRad*r.Len()) + math.Log(r.Len())
			logs[j] = math.Log(h.weight) + math.Log(math.Exp(l)+misseenWays)
			h.g = g
		}
		out[j] = h
	}
	k.bank = pruned(weighed(out, logs))
	return k
}

// tell conditions on h · (the pair at a) being value, to sigma (1σ), and
// returns the log likelihood of it, without the constant.
func (g *gauss) tell(a int, h optics.Tube, value, sigma float64) float64 {
	gain := make([]float64, g.n)
	for j := range gain {
		gain[j] = g.row(a)[j]*h.X + g.row(a + 1)[j]*h.Y
	}
	s := gain[a]*h.X + gain[a+1]*h.Y + sigma*sigma
	d := value - g.at(a).Dot(h)
	for i := range g.n {
		g.m[i] += gain[i] * d / s
		row := g.row(i)
		for j := range row {
			row[j] -= gain[i] * gain[j] / s
		}
	}
	return -(d*d/s + math.Log(s)) / 2
}
