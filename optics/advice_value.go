package optics

import "math"

// later is how many more moves it is thought to take, beyond the next ones that
// are looked at, from a spot that far from the goal (in radii of the goal,
// squared): none inside, one and a little more outside.
func later(x2 float64) float64 {
	if x2 <= 0.7 {
		return 0
	}
	out := 1.0
	if x2 < 2 {
		out = (x2 - 0.7) / 1.3
	}
	return out * (1.1 + 0.25*math.Log(x2))
}

// chooser weighs moves for one advice.
type chooser struct {
	k      Tracker
	goal   Goal
	ls     []lever
	cloud  []particle
	radius float64 // of what counts as home, mm
}

// candidate is a move that is weighed.
type candidate struct {
	lever int
	turns float64
	cost  float64
}

// moved returns where particle p is after n turns of lever j.
func (c *chooser) moved(p *particle, j int, n, err, least float64) Tube {
	n -= math.Copysign(c.k.loss(c.ls[j], n), n)
	return p.off.Add(p.per[j].Scale(n*(1+p.hand*err) + turnLeastSpread*least))
}

// first returns the moves worth a closer look: for each lever and way the few
// that would leave least to do if the response were known right after.
func (c *chooser) first() []candidate {
	var out []candidate
	for j := range c.ls {
		for _, way := range []float64{-1, 1} {
			var best []candidate
			for _, n := range amounts() {
				cost := 0.0
				for i := range c.cloud {
					p := &c.cloud[i]
					cost += c.known(p, c.moved(p, j, way*n, p.err1, p.least))
				}
				best = append(best, candidate{j, way * n, cost / particles})
			}
			sortCandidates(best)
			out = append(out, best[:2]...)
		}
	}
	sortCandidates(out)
	return out[:min(len(out), 8)]
}

// known returns how many moves are left at off if the responses of p hold.
func (c *chooser) known(p *particle, off Tube) float64 {
	r2 := c.radius * c.radius
	if off.Dot(off) < r2 {
		return 0
	}
	best := math.Inf(1)
	for j := range c.ls {
		r := p.per[j]
		rr := r.Dot(r)
		along := off.Dot(r)
		rest := off.Dot(off) - along*along/rr + rr*0.0005 + 0.01*along*along/rr
		best = math.Min(best, rest)
	}
	return 1 + later(best/r2)
}

// weigh returns the expected number of moves, this one and later ones, after
// candidate a, a look and the best that can then be done.
func (c *chooser) weigh(a candidate) float64 {
	const every = 2
	var after [particles]Tube
	for i := range c.cloud {
		p := &c.cloud[i]
		after[i] = c.moved(p, a.lever, a.turns, p.err1, p.least)
	}
	total, n := 0.0, 0
	for i := 0; i < particles; i += every {
		total += c.second(&after, i)
		n++
	}
	return 1 + total/float64(n)
}

// second returns the expected moves after the spot was read near where
// particle at stands.
func (c *chooser) second(after *[particles]Tube, at int) float64 {
	z := after[at]
	s2 := 0.7*0.7 + 0.012*z.Dot(z)
	var w [particles]float64
	sum := 0.0
	for i := range after {
		d := after[i].Sub(z)
		w[i] = math.Exp(-d.Dot(d) / (2 * s2))
		sum += w[i]
	}
	r2 := c.radius * c.radius
	best := 0.0
	for i := range after {
		if w[i] > 1e-3 {
			best += w[i] * later(after[i].Dot(after[i])/r2) * 2
		}
	}
	for j := range c.ls {
		num, den := 0.0, 1e-9
		for i := range after {
			r := c.cloud[i].per[j]
			num += w[i] * after[i].Dot(r)
			den += w[i] * r.Dot(r)
		}
		n := onGrid(-num / den)
		if n == 0 {
			n = -math.Copysign(1.0/32, num)
		}
		cost := sum
		for i := range after {
			if w[i] < 1e-3 {
				continue
			}
			p := &c.cloud[i]
			end := after[i].Add(p.per[j].Scale(n*(1+p.hand*p.err2) + turnLeastSpread*p.least))
			cost += w[i] * later(end.Dot(end)/r2)
		}
		best = math.Min(best, cost)
	}
	return best / sum
}
