package virtual

import (
	"math"

	"spotward/optics"
)

// plate is what a mirror is fixed to, as its screws set it. It works in the
// direction in which a clockwise turn takes the plate, so that every screw is
// a stop which the plate cannot pass: what presses it there is a spring, a
// bolt or its own weight.
type plate struct {
	at []optics.Tube // where the screws stand, mm
	// boltMM is how far a centre bolt lets the plate's middle come toward the
	// heads of its screws; −∞ where springs do that work at any place.
	boltMM float64
	tilt   optics.Tube // slope of the plate
	midMM  float64     // how far its middle has come
	lean   float64     // −1 or 1: to which side a plate on four screws falls
}

// seat lets the plate come to rest on tips, mm, one a screw. What the screws
// leave open stays as it was.
func (p *plate) seat(tips []float64) {
	if len(tips) == 4 {
		p.seatFour(tips)
		return
	}
	tilt, mid := p.through(tips)
	if mid >= p.boltMM {
		p.tilt, p.midMM = tilt, mid
		return
	}
	p.midMM = p.boltMM
	p.tilt = p.nearest(p.tilt, tips)
}

// through returns the plane through three tips: its slope, and its height in
// the middle.
func (p *plate) through(tips []float64) (optics.Tube, float64) {
	u, v := p.at[1].Sub(p.at[0]), p.at[2].Sub(p.at[0])
	du, dv := tips[1]-tips[0], tips[2]-tips[0]
	area := u.X*v.Y - u.Y*v.X
	tilt := optics.Tube{X: (du*v.Y - dv*u.Y) / area, Y: (dv*u.X - du*v.X) / area}
	return tilt, tips[0] - tilt.Dot(p.at[0])
}

// nearest returns the slope nearest to tilt at which a plate held by its bolt
// alone clears all three tips: such slopes fill a triangle.
func (p *plate) nearest(tilt optics.Tube, tips []float64) optics.Tube {
	clear := true
	for i, r := range p.at {
		clear = clear && tilt.Dot(r) >= tips[i]-p.boltMM
	}
	if clear {
		return tilt
	}
	best, miss := tilt, math.Inf(1)
	for i := range p.at {
		a, b := p.corner(tips, i, (i+1)%3), p.corner(tips, i, (i+2)%3)
		if q := onto(tilt, a, b); q.Sub(tilt).Len() < miss {
			best, miss = q, q.Sub(tilt).Len()
		}
	}
	return best
}

// corner returns the slope at which the plate touches screws i and j.
func (p *plate) corner(tips []float64, i, j int) optics.Tube {
	r, s := p.at[i], p.at[j]
	h, k := tips[i]-p.boltMM, tips[j]-p.boltMM
	det := r.X*s.Y - r.Y*s.X
	return optics.Tube{X: (h*s.Y - k*r.Y) / det, Y: (k*r.X - h*s.X) / det}
}

// onto returns the point of the line from a to b that is nearest to q.
func onto(q, a, b optics.Tube) optics.Tube {
	d := b.Sub(a)
	if d.Len() == 0 {
		return a
	}
	k := q.Sub(a).Dot(d) / d.Dot(d)
	return a.Add(d.Scale(math.Max(0, math.Min(1, k))))
}

// seatFour seats a rigid plate on four tips. The opposite pair that stands
// higher, or the bolt, carries it; across that pair it is free to rock between
// the other two, and falls to the side it leans to.
func (p *plate) seatFour(tips []float64) {
	mid := math.Max(p.boltMM, math.Max(tips[0]+tips[2], tips[1]+tips[3])/2)
	slope := optics.Tube{}
	for i := range 2 {
		r := p.at[i]
		from, to := (tips[i]-mid)/r.Len(), (mid-tips[i+2])/r.Len()
		along := (from + to + p.lean*(to-from)) / 2
		if mid == p.boltMM { // held in the middle, it stays where it was
			along = math.Max(from, math.Min(to, p.tilt.Dot(r)/r.Len()))
		}
		slope = slope.Add(r.Scale(along / r.Len()))
	}
	p.tilt, p.midMM = slope, mid
}

// overMM returns how far the screws that work with screw i press the plate past
// where its bolt is just taut; below zero it is loose by so much.
func (p *plate) overMM(tips []float64, i int) float64 {
	if len(tips) == 4 {
		return (tips[i]+tips[(i+2)%4])/2 - p.boltMM
	}
	_, mid := p.through(tips)
	return mid - p.boltMM
}

// share returns how far the plate's middle comes when one of its screws does,
// as part of that: a plate on four screws is carried by two of them.
func (p *plate) share() float64 {
	if len(p.at) == 4 {
		return 1. / 2
	}
	return 1. / 3
}

// offMM returns by how much screw i has come away from the plate.
func (p *plate) offMM(tips []float64, i int) float64 {
	return p.midMM + p.tilt.Dot(p.at[i]) - tips[i]
}
