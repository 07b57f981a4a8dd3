package adviser

import (
	"math"

	"spotward/optics"
)

// misseenWays is how often the way a spot went is told altogether wrongly.
// Trainers' judgement.
const misseenWays = 0.02

// Went returns the belief after somebody who watched says which way the spot
// went while these screws were turned: toward way, to sigmaRad (1σ). It costs no
// look and says more than two places far from the goal do. A way without length
// says nothing. The turns themselves are told by Turn, before.
func (k Tracker) Went(ms []Move, way optics.Tube, sigmaRad float64) Tracker {
	n := way.Len()
	if n == 0 || len(ms) == 0 {
		return k
	}
	way = way.Scale(1 / n)
	aside := optics.Tube{X: -way.Y, Y: way.X}
	for _, m := range ms {
		k.told[m.Screw] = true
	}
	out := make([]hypothesis, len(k.bank))
	logs := make([]float64, len(out))
	for j, h := range k.bank {
		r := h.g.turned(ms)
		toward := way
		if len(ms) == 1 && h.slips.slipped() {
			toward = way.Scale(-1) // it was turned the other way then
		}
		logs[j] = math.Log(h.weight) + math.Log(misseenWays)
		if r.Dot(toward) > 0 {
			// How likely the angle is, as far as the hypothesis lets it vary.
			g := h.g.clone()
			l := g.tell(ms, aside, sigmaRad*r.Len()) + math.Log(r.Len())
			logs[j] = math.Log(h.weight) + math.Log(math.Exp(l)+misseenWays)
			h.g = g
		}
		out[j] = h
	}
	k.bank = pruned(weighed(out, logs))
	return k
}

// turned returns by how much these turns move the spot.
func (g *gauss) turned(ms []Move) (by optics.Tube) {
	for _, m := range ms {
		by = by.Add(g.at(screwAt(m.Screw)).Scale(m.Turns))
	}
	return by
}

// tell conditions on h · (what these turns move the spot by) being nothing, to
// sigma (1σ), and returns the log likelihood of it, without the constant.
func (g *gauss) tell(ms []Move, h optics.Tube, sigma float64) float64 {
	coefficients := make([]float64, g.n)
	for _, m := range ms {
		a := screwAt(m.Screw)
		coefficients[a] += h.X * m.Turns
		coefficients[a+1] += h.Y * m.Turns
	}
	return g.tellThat(coefficients, 0, sigma)
}

// tellThat conditions on a sum over the state being value, to sigma (1σ), and
// returns the log likelihood of it, without the constant.
func (g *gauss) tellThat(coefficients []float64, value, sigma float64) float64 {
	gain := make([]float64, g.n)
	s, is := sigma*sigma, 0.0
	for i := range g.n {
		row := g.row(i)
		for j, c := range coefficients {
			gain[i] += row[j] * c
		}
	}
	for i, c := range coefficients {
		s += c * gain[i]
		is += c * g.m[i]
	}
	d := value - is
	for i := range g.n {
		g.m[i] += gain[i] * d / s
		row := g.row(i)
		for j := range row {
			row[j] -= gain[i] * gain[j] / s
		}
	}
	return -(d*d/s + math.Log(s)) / 2
}

// TouchTurns is how far a screw is turned for its spot to set off, about: a
// sixteenth to an eighth at the secondary, to a quarter at the primary.
func TouchTurns(m optics.Mirror) float64 {
	if m == optics.Primary {
		return 1. / 8
	}
	return 1. / 16
}
