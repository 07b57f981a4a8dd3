package adviser

import (
	"math"

	"spotward/optics"
)

// From such a circular spread on (1 less the mean cosine; σ²/2 of a small one)
// the way a spot will go is not known: some 25° to either side. From the other
// on it is a guess, for which somebody who watches looks as it sets off: 45°.
const (
	unknownWay = 0.1
	guessedWay = 0.27
)

// waySpread returns the circular spread of the way lever j moves the spot.
func (c *chooser) waySpread(j int) float64 {
	var sum optics.Tube
	for i := range c.cloud {
		r := c.cloud[i].per[j]
		sum = sum.Add(r.Scale(1 / (math.Sqrt(c.cloud[i].size2[j]) + 1e-9)))
	}
	return 1 - sum.Len()/particles
}

// wayUnknown reports whether it is not known which way lever j moves the spot,
// and was not told either.
func (c *chooser) wayUnknown(j int) bool {
	return !c.k.toldWay(c.ls[j]) && c.waySpread(j) > unknownWay
}

// wayGuessed reports whether the way lever j moves the spot is a guess.
func (c *chooser) wayGuessed(j int) bool {
	return !c.k.toldWay(c.ls[j]) && c.waySpread(j) > guessedWay
}

// Likely returns by how much these turns move the spot, by what is likeliest.
func (k Tracker) Likely(ms []Move) optics.Tube {
	top := &k.bank[0]
	for i := range k.bank {
		if k.bank[i].weight > top.weight {
			top = &k.bank[i]
		}
	}
	return top.g.turned(ms)
}

// AsideRad returns how far beside its likeliest way these turns may take the
// spot, 1σ.
func (k Tracker) AsideRad(ms []Move) float64 {
	var sum optics.Tube
	weight := 0.0
	for i := range k.bank {
		h := &k.bank[i]
		r := h.g.turned(ms)
		n := r.Len()
		if n == 0 {
			continue
		}
		// What the hypothesis itself leaves open, across its way.
		c := h.g.covTurned(ms)
		x, y := -r.Y/n, r.X/n
		open := (c.XX*x*x + 2*c.XY*x*y + c.YY*y*y) / (n * n)
		sum = sum.Add(r.Scale(h.weight * math.Exp(-open/2) / n))
		weight += h.weight
	}
	if weight == 0 {
		return math.Pi
	}
	return math.Sqrt(-2 * math.Log(math.Max(sum.Len()/weight, 1e-4)))
}

// foretoldPart is how well the place must be known where a move leads, 1σ, as
// part of its way, for the move to be as long as it must be. This program's own.
const foretoldPart = 0.85

// Foretold reports whether it is known what these turns do: how far they take
// the spot to better than half or so, and about which way.
func (k Tracker) Foretold(ms []Move) bool {
	var mean optics.Tube
	for i := range k.bank {
		mean = mean.Add(k.bank[i].g.turned(ms).Scale(k.bank[i].weight))
	}
	spread := 0.0
	for i := range k.bank {
		h := &k.bank[i]
		d, c := h.g.turned(ms).Sub(mean), h.g.covTurned(ms)
		spread += h.weight * (d.Dot(d) + c.XX + c.YY)
	}
	return math.Sqrt(spread) < foretoldPart*mean.Len()
}

// covTurned returns how uncertain it is by how much these turns move the spot.
func (g *gauss) covTurned(ms []Move) (c optics.Cov) {
	for _, m := range ms {
		for _, n := range ms {
			a, b, w := screwAt(m.Screw), screwAt(n.Screw), m.Turns*n.Turns
			c = c.Add(optics.Cov{XX: w * g.row(a)[b], XY: w * g.row(a)[b+1], YY: w * g.row(a + 1)[b+1]})
		}
	}
	return c
}

// toldWay reports whether it was said which way lever l moves the spot.
func (k Tracker) toldWay(l lever) bool {
	return k.told[l.first] && (l.second < 0 || k.told[l.second])
}
