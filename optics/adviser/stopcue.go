package adviser

import (
	"math"

	"spotward/optics"
)

// What eyes make of a spot that moves, 1σ.
const (
	cueDirectionRad = 0.09 // of a bearing
	cueDistance     = 0.1  // of a distance
	cueLeastMM      = 0.5
	leastSlant      = 0.4 // sine between a spot's way and the bearing it is to meet
)

// leg is one lever turned while somebody watches: until the spot stands in a
// direction from the goal, or until it comes nearest to it.
type leg struct {
	lever   int
	bearing optics.Tube // unit vector from the goal; zero: nearest
}

// legs returns what can be watched for: each lever to the nearest point, and
// each to the two bearings from which another brings the spot home.
func (c *chooser) legs() []leg {
	var all []leg
	for i := range c.ls {
		all = append(all, leg{lever: i})
		for j := range c.ls {
			if r := c.likely[j]; i != j && r.Len() > 0 {
				b := r.Scale(1 / r.Len())
				all = append(all, leg{i, b}, leg{i, b.Scale(-1)})
			}
		}
	}
	return all
}

// turnsTo returns the turns after which particle p, turned by leg l, meets the
// cue, and whether it can.
func (l leg) turnsTo(off, r optics.Tube) (float64, bool) {
	if l.bearing == (optics.Tube{}) {
		return -off.Dot(r) / r.Dot(r), true
	}
	cross := func(a, b optics.Tube) float64 { return a.X*b.Y - a.Y*b.X }
	c := cross(r, l.bearing)
	if math.Abs(c) < leastSlant*r.Len() {
		return 0, false
	}
	n := -cross(off, l.bearing) / c
	return n, off.Add(r.Scale(n)).Dot(l.bearing) > 0
}

// stopped returns where a spot at off comes to stand by leg l when a turn does
// r, with err (in its 1σ) of the eyes. Where a bearing never comes up people
// stop as it goes by.
func (l leg) stopped(off, r optics.Tube, err float64) optics.Tube {
	n, ok := l.turnsTo(off, r)
	if !ok {
		l.bearing = optics.Tube{}
		n, _ = l.turnsTo(off, r)
	}
	at := off.Add(r.Scale(n))
	size := r.Len()
	slip := math.Hypot(cueLeastMM, cueDistance*at.Len())
	if l.bearing != (optics.Tube{}) {
		slip = math.Hypot(cueLeastMM, cueDirectionRad*at.Len())
		slip /= math.Abs(r.X*l.bearing.Y-r.Y*l.bearing.X) / size
	}
	slip = math.Hypot(slip, turnLeastSpread*size)
	return at.Add(r.Scale(slip * err / size))
}

// bestLeg returns the leg with the fewest moves expected, this one and later
// ones; false where what the screws said leaves none.
func (c *chooser) bestLeg() (best leg, found bool) {
	cost := math.Inf(1)
	var after outlook
	for _, l := range c.legs() {
		way, ok := l.turnsTo(c.mean, c.likely[l.lever])
		if !ok || !c.can(l.lever, way) {
			continue
		}
		false0 := 0.0
		for i := range c.cloud {
			p := &c.cloud[i]
			after.spots[i] = l.stopped(p.off, p.per[l.lever], p.err1)
			if n, _ := l.turnsTo(p.off, p.per[l.lever]); n*way < 0 {
				false0++
			}
		}
		after.look(c)
		farther, falsely, strain := c.farther(&after.spots), falseStart*false0/particles, c.k.strain(c.ls[l.lever], way)
		if v := c.expect(&after, c.watchedNext(&after), 2, cost+unlike-farther-falsely-strain) + farther + falsely + strain; rounded(v) < rounded(cost) {
			cost, best, found = v, l, true
		}
	}
	return best, found
}

// falseStart is what a nudge the wrong way costs, in moves.
const falseStart = 0.2

// watchedNext returns what says the expected moves after the spot was read, among
// particles of these weights, when the next move is watched too. Where that one ends
// does not hang on what is read.
func (c *chooser) watchedNext(after *outlook) func(*outlook, []weighted) float64 {
	var left [maxScrews][particles]float64
	for j := range c.ls {
		for i := range c.cloud {
			p := &c.cloud[i]
			end := leg{lever: j}.stopped(after.spots[i], p.per[j], p.err2)
			left[j][i] = 1 + c.later.at(c.squared(end))
		}
	}
	return func(after *outlook, near []weighted) float64 {
		best := 0.0
		for _, v := range near {
			best += v.w * 2 * after.left[v.i]
		}
		for j := range c.ls {
			toward := 0.0
			for _, v := range near {
				toward -= v.w * after.along[j][v.i]
			}
			if !c.opens(j, toward) {
				continue
			}
			cost := 0.0
			for _, v := range near {
				cost += v.w * left[j][v.i]
			}
			best = math.Min(best, cost)
		}
		return best
	}
}

// watched returns the advice for leg l, and foretells the one that brings the
// spot home.
func (c *chooser) watched(l leg) Advice {
	n, _ := l.turnsTo(c.mean, c.likely[l.lever])
	cue := l.stopped(c.mean, c.likely[l.lever], 0)
	a := c.advice(candidate{lever: l.lever, turns: c.grid.some(n)})
	stop := &optics.Stop{At: c.goal.At.Add(cue), As: optics.StopClosest}
	if l.bearing != (optics.Tube{}) {
		stop.As = optics.StopBearing
		if last, _, ok := c.lastLeg(cue, l.lever); ok {
			a.Then = last
		}
	}
	a.After = stop.At
	a.Moves[len(a.Moves)-1].Stop = stop
	return a
}

// lastLeg returns the moves that bring a spot at off nearest to the goal, by
// another lever than the one given.
func (c *chooser) lastLeg(off optics.Tube, but int) (ms []Move, lever int, ok bool) {
	best, left := -1, math.Inf(1)
	for j := range c.ls {
		if j == but {
			continue
		}
		end := leg{lever: j}.stopped(off, c.likely[j], 0)
		if end.Len() < left {
			best, left = j, end.Len()
		}
	}
	if best < 0 {
		return nil, 0, false
	}
	l := leg{lever: best}
	n, _ := l.turnsTo(off, c.likely[best])
	ms = c.ls[best].moves(c.k.mirror, c.grid.some(n))
	at := c.goal.At.Add(l.stopped(off, c.likely[best], 0))
	ms[len(ms)-1].Stop = &optics.Stop{At: at, As: optics.StopClosest}
	return ms, best, true
}

// addLeg makes of an advice for leg l one that brings the spot home by a second
// leg, if its way is known.
func (c *chooser) addLeg(l leg, a *Advice) {
	if len(a.Then) == 0 {
		return
	}
	cue := l.stopped(c.mean, c.likely[l.lever], 0)
	last, lever, ok := c.lastLeg(cue, l.lever)
	if !ok || c.wayUnknown(lever) {
		return
	}
	a.Moves, a.Then, a.Group = append(a.Moves, last...), nil, GroupLegs
	a.After = last[len(last)-1].Stop.At
}
