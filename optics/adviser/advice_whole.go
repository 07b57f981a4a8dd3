package adviser

import (
	"math"

	"spotward/optics"
)

// bestWhole returns two levers to be turned one after the other before the next
// look, and by how much: those that leave least to do.
func (c *chooser) bestWhole() (moves []candidate) {
	cost := math.Inf(1)
	for i := range c.ls {
		for j := range c.ls {
			if i == j {
				continue
			}
			ni, nj, ok := meet(c.mean, c.likely[i], c.likely[j])
			if ni, nj = c.grid.on(ni), c.grid.on(nj); !ok || !c.can(i, ni) || !c.can(j, nj) {
				continue
			}
			if v := c.afterBoth(i, ni, j, nj); rounded(v) < rounded(cost) {
				cost, moves = v, []candidate{{lever: i, turns: ni}, {lever: j, turns: nj}}
			}
		}
	}
	return moves
}

// afterBoth returns the moves left after both levers were turned.
func (c *chooser) afterBoth(i int, ni float64, j int, nj float64) float64 {
	total := 0.0
	neti, netj := c.net(i, ni), c.net(j, nj)
	for n := range c.cloud {
		p := &c.cloud[n]
		end := p.moved(i, neti, p.err1, p.least).Add(p.moved(j, netj, p.err2, p.least)).Sub(p.off)
		total += c.later.at(c.squared(end))
	}
	return total/particles + c.k.strain(c.ls[i], ni) + c.k.strain(c.ls[j], nj)
}

// meet returns the turns of two levers that bring a spot at off home; false
// where they pull along nearly one line.
func meet(off, a, b optics.Tube) (na, nb float64, ok bool) {
	det := a.X*b.Y - a.Y*b.X
	if math.Abs(det) < 0.2*a.Len()*b.Len() {
		return 0, 0, false
	}
	return -(off.X*b.Y - off.Y*b.X) / det, -(a.X*off.Y - a.Y*off.X) / det, true
}

// whole returns the advice for two levers: the first to a bearing, the second
// to the nearest point.
func (c *chooser) whole(moves []candidate) Advice {
	var a Advice
	at := c.mean
	for i, m := range moves {
		if m.turns == 0 {
			continue
		}
		at = at.Add(c.likely[m.lever].Scale(m.turns))
		ms := c.ls[m.lever].moves(c.k.mirror, m.turns)
		as := optics.StopBearing
		if i == len(moves)-1 {
			as = optics.StopClosest
		}
		ms[len(ms)-1].Stop = &optics.Stop{At: c.goal.At.Add(at), As: as}
		a.Moves = append(a.Moves, ms...)
	}
	a.Group = GroupLegs
	a.After = c.goal.At.Add(at)
	a.Trust = c.trust(func(p *particle) optics.Tube {
		end := p.off
		for _, m := range moves {
			end = end.Add(p.per[m.lever].Scale(m.turns))
		}
		return end
	})
	return a
}

// trust returns how many of the particles come nearer.
func (c *chooser) trust(after func(*particle) optics.Tube) float64 {
	near := 0
	for i := range c.cloud {
		if p := &c.cloud[i]; after(p).Len() < p.off.Len() {
			near++
		}
	}
	return float64(near) / particles
}
