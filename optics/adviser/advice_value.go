package adviser

import (
	"cmp"
	"math"
	"slices"

	"spotward/optics"
)

// ladder is how many more moves it takes from a spot that far from the goal (in
// radii of the goal, squared), beyond the moves that are looked at: none
// inside, then one and one more for every factor of three, as those need who
// know what the screws do. Tabled, eight steps an octave from a quarter on.
type ladder [8 * 14]float64

// The rungs of the ladder: nearer than the first (radii, squared) no move is
// needed, at the second one, and one more for each e^(1/0.45) = 9 of it. This
// program's own: of those who know what the screws do, with trained hands and
// eyes, 120 starts a distance; TestTheLadder holds it to them.
const (
	noMove2    = 0.55
	oneMove2   = 1.8
	perLogMove = 0.45
)

func newLadder() *ladder {
	var l ladder
	for i := range l {
		x2 := math.Exp2(float64(i)/8+1.0/16) / 4
		switch {
		case x2 > oneMove2:
			l[i] = 1 + perLogMove*math.Log(x2/oneMove2)
		case x2 > noMove2:
			l[i] = (x2 - noMove2) / (oneMove2 - noMove2)
		}
	}
	return &l
}

func (l *ladder) at(x2 float64) float64 {
	const quarter = (1023 - 2) << 3 // bits of 0.25, cut to eighths of an octave
	i := int(math.Float64bits(x2)>>49) - quarter
	return l[max(0, min(i, len(l)-1))]
}

// spots is where each particle's spot is, from the goal.
type spots [particles]optics.Tube

// weighted is a particle and its weight.
type weighted struct {
	i int
	w float64
}

// outlook is where the particles' spots are after a move, and what of the next one
// does not hang on what is read then: it is asked for again with every reading.
type outlook struct {
	spots
	left  [particles]float64            // moves that are left there
	along [maxScrews][particles]float64 // the spot's place along what each lever does
}

// look fills in what follows from where the spots are.
func (o *outlook) look(c *chooser) {
	for i := range o.spots {
		o.left[i] = c.later.at(c.squared(o.spots[i]))
	}
	for j := range c.ls {
		for i := range o.spots {
			o.along[j][i] = o.spots[i].Dot(c.cloud[i].per[j])
		}
	}
}

// chooser weighs moves for one advice.
type chooser struct {
	k           Tracker
	goal        optics.Goal
	ls          []lever
	cloud       []particle
	mean        optics.Tube   // the spot from the goal
	likely      []optics.Tube // what each lever does a turn, by the likeliest hypothesis
	later       *ladder
	grid        grid
	fartherCost float64   // see fartherCost
	unbound     bool      // every lever is barred
	open        [][2]bool // whether each lever goes on, anticlockwise and clockwise
	radius      float64   // of what counts as home, mm
	radius2     float64
	hand2       [particles]float64 // what each makes of the next move: a factor of its turns
	least2      [particles]float64 // and what is added to them
}

func newChooser(k Tracker, g optics.Goal, asFolded bool) *chooser {
	ls := levers(k.cell)
	c := &chooser{k: k, goal: g, ls: ls, cloud: k.drawn(g.At, ls), later: newLadder(), radius: g.InsideMM + optics.EyesMM/2}
	c.radius2 = c.radius * c.radius
	for i := range c.cloud {
		p := &c.cloud[i]
		c.hand2[i], c.least2[i] = 1+p.hand*p.err2, turnLeastSpread*p.least
	}
	c.grid, c.fartherCost = toldGrid, fartherCost
	if asFolded {
		c.grid, c.fartherCost = foldedGrid, fartherFolded
	}
	c.mean = k.Spot().At.Sub(g.At)
	top := &k.bank[0]
	for i := range k.bank {
		if k.bank[i].weight > top.weight {
			top = &k.bank[i]
		}
	}
	for _, l := range ls {
		c.likely = append(c.likely, l.response(top.g.m))
	}
	c.unbound = !slices.ContainsFunc(ls, func(l lever) bool {
		return k.allowsLever(l, c.grid.least()) || k.allowsLever(l, -c.grid.least())
	})
	for j := range ls {
		c.open = append(c.open, [2]bool{c.can(j, -c.grid.least()), c.can(j, c.grid.least())})
	}
	return c
}

// opens reports whether lever j can be turned that way at all.
func (c *chooser) opens(j int, turns float64) bool {
	if turns < 0 {
		return c.open[j][0]
	}
	return c.open[j][1]
}

// squared returns how far off is, in radii of what counts as home, squared.
func (c *chooser) squared(off optics.Tube) float64 { return off.Dot(off) / c.radius2 }

// candidate is a move that is weighed.
type candidate struct {
	lever int
	turns float64
	cost  float64
}

// net returns what n turns of lever j come to.
func (c *chooser) net(j int, n float64) float64 {
	return n - math.Copysign(c.k.loss(c.ls[j], n), n)
}

// moved returns where particle p is after lever j moved by net turns.
func (p *particle) moved(j int, net, err, least float64) optics.Tube {
	return p.off.Add(p.per[j].Scale(net*(1+p.hand*err) + turnLeastSpread*least))
}

// first returns the moves worth a closer look: for each lever and way the few
// that would leave least to do if the response were known right after.
func (c *chooser) first() []candidate {
	var out, best []candidate
	amounts := c.grid.amounts()
	for j := range c.ls {
		for _, way := range []float64{-1, 1} {
			best = best[:0]
			for _, n := range amounts {
				if !c.can(j, way*n) {
					continue
				}
				cost, net := 0.0, c.net(j, way*n)
				for i := range c.cloud {
					p := &c.cloud[i]
					cost += c.known(p, p.moved(j, net, p.err1, p.least))
				}
				best = append(best, candidate{j, way * n, cost / particles})
			}
			sortCandidates(best)
			out = append(out, best[:min(len(best), eachWay)]...)
		}
	}
	return out
}

// eachWay candidates of each lever and way are weighed roughly, finalists
// closely.
const (
	eachWay   = 7
	finalists = 4
)

// best returns the move with the fewest moves expected, it and later ones.
func (c *chooser) best() candidate {
	cs := c.closest(c.first(), finalists, 6)
	return c.closest(cs, 1, 2)[0]
}

// closest returns the n candidates with the fewest moves expected, weighed over every
// so many particles. One that is sure to be none of them is not weighed to its end.
func (c *chooser) closest(cs []candidate, n, every int) []candidate {
	order := make([]int, len(cs))
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(a, b int) int { return cmp.Compare(cs[a].cost, cs[b].cost) })
	n = min(n, len(cs))
	least := make([]float64, 0, n+1) // the costs of the n best so far
	for _, i := range order {
		most := math.Inf(1)
		if len(least) == n {
			most = least[n-1] + unlike
		}
		cs[i].cost = c.weigh(cs[i], every, most)
		at, _ := slices.BinarySearch(least, cs[i].cost)
		least = slices.Insert(least, at, cs[i].cost)
		least = least[:min(n, len(least))]
	}
	sortCandidates(cs)
	return cs[:n]
}

// unlike is by how much two costs differ that are no equals: see rounded.
const unlike = 1e-5

// can reports whether n turns of lever j are possible; where no lever can do
// anything, what the screws said is left aside.
func (c *chooser) can(j int, n float64) bool {
	return c.unbound || c.k.allowsLever(c.ls[j], n)
}

// What a turn of trained hands leaves, squared: of the way it was to take out,
// their 8 % and as much of the screw's own; and of a turn, their hundredth, the
// least step on the grid and the play, 0.022 turns together.
const (
	handPart2  = 0.01
	handLeast2 = 0.0005
)

// What a reading at a distance errs by, squared: what eyes tell at all, mm², and
// 11 % of it each way: 10 % of the distance and 5° to the half-hour.
const (
	eyesLeast2 = 0.5
	eyesPart2  = 0.012
)

// known returns how many moves are left at off if the responses of p hold.
func (c *chooser) known(p *particle, off optics.Tube) float64 {
	off2 := off.Dot(off)
	if off2 < c.radius2 {
		return 0
	}
	best := off2
	for j := range c.ls {
		rr := p.size2[j]
		along := off.Dot(p.per[j])
		if !c.opens(j, -along) {
			continue
		}
		along *= along / rr
		if left := off2 - (1-handPart2)*along + rr*handLeast2; left < best || left != left {
			best = left
		}
	}
	return 1 + c.later.at(best/c.radius2)
}

// weigh returns the expected number of moves, this one and later ones, after
// candidate a, a look and the best that can then be done; of what comes to more than
// most, something that does too.
func (c *chooser) weigh(a candidate, every int, most float64) float64 {
	var after outlook
	net := c.net(a.lever, a.turns)
	for i := range c.cloud {
		p := &c.cloud[i]
		after.spots[i] = p.moved(a.lever, net, p.err1, p.least)
	}
	after.look(c)
	farther, strain := c.farther(&after.spots), c.k.strain(c.ls[a.lever], a.turns)
	return c.expect(&after, c.second, every, most-farther-strain) + farther + strain
}

// fartherCost is what a move that leaves the spot farther off costs beside the
// moves to come, in moves: people lose trust. Of 500 sessions a row of the feed's
// table a third of it leaves half as many false moves more, and twice as much costs
// those who were told nothing a move.
const (
	fartherCost   = 1
	fartherFolded = 0.3 // of Options.AsFolded
)

// farther returns the cost of the particles' spots that end up farther off.
func (c *chooser) farther(after *spots) float64 {
	n := 0.0
	for i := range after {
		if after[i].Len() > c.cloud[i].off.Len()+1 {
			n++
		}
	}
	return c.fartherCost * n / particles
}

// expect returns one move more than second says on average over what may be
// read, of every so many particles, when they stand as in after. Once that is sure
// to be more than most it is not summed up to its end.
func (c *chooser) expect(after *outlook, second func(*outlook, []weighted) float64, every int, most float64) float64 {
	total, n := 0.0, 0
	enough := (most - 1) * float64((particles+every-1)/every)
	var room [particles]weighted
	for at := 0; at < particles; at += every {
		z := after.spots[at]
		// How well a spot so far off is read; what lies beyond 3.5σ is not it.
		half := 0.5 / (eyesLeast2 + eyesPart2*z.Dot(z))
		near, sum := room[:0], 0.0
		for i := range after.spots {
			d := after.spots[i].Sub(z)
			if x := d.Dot(d) * half; x < 6 && i != at {
				w := math.Exp(-x)
				near, sum = append(near, weighted{i, w}), sum+w
			}
		}
		// A particle is not told by its own reading; only where there is no
		// other like it must it stand for itself.
		if sum < 1e-3 {
			near, sum = append(room[:0], weighted{at, 1}), 1
		}
		total += second(after, near) / sum
		n++
		if total > enough {
			return math.Max(most, 1) + unlike
		}
	}
	return 1 + total/float64(n)
}

// second returns the expected moves after the spot was read, among particles of
// these weights.
func (c *chooser) second(after *outlook, near []weighted) float64 {
	best, sum := 0.0, 0.0
	for _, v := range near {
		sum += v.w
		best += v.w * 2 * after.left[v.i]
	}
	for j := range c.ls {
		num, den := 0.0, 1e-9
		along := &after.along[j]
		for _, v := range near {
			num += v.w * along[v.i]
			den += v.w * c.cloud[v.i].size2[j]
		}
		n := c.grid.some(-num / den)
		if !c.opens(j, n) {
			continue
		}
		cost := sum
		for _, v := range near {
			end := after.spots[v.i].Add(c.cloud[v.i].per[j].Scale(n*c.hand2[v.i] + c.least2[v.i]))
			cost += v.w * c.later.at(c.squared(end))
		}
		best = math.Min(best, cost)
	}
	return best
}
