package adviser

import (
	"math"

	"spotward/optics"
)

// lever is one thing a person can be asked to do in a single move: a screw, or
// two against each other, the eased one first.
type lever struct {
	first, second int // second −1: one screw alone
}

// levers returns what can be asked of a cell. Screws that push against a bolt
// or each other go in pairs; of four only opposite ones, because a plate on
// four tips rocks when one goes in alone.
func levers(c optics.Cell) []lever {
	var all []lever
	switch {
	case c.Screws == 4:
		return []lever{{0, 2}, {1, 3}}
	case c.Kind == optics.PushPull:
		for i := range c.Screws {
			for j := range i {
				all = append(all, lever{j, i})
			}
		}
		return all
	}
	for i := range c.Screws {
		all = append(all, lever{i, -1})
	}
	return all
}

// response returns what one turn of the lever does in state g, mm: clockwise of
// the second screw and anticlockwise of the first, or clockwise of the only
// one.
func (l lever) response(state []float64) optics.Tube {
	a := screwAt(l.first)
	r := optics.Tube{X: state[a], Y: state[a+1]}
	if l.second < 0 {
		return r
	}
	b := screwAt(l.second)
	return optics.Tube{X: state[b], Y: state[b+1]}.Sub(r)
}

// turns returns the signed turns of each screw of the lever.
func (l lever) turns(n float64) (first, second float64) {
	if l.second < 0 {
		return n, 0
	}
	return -n, n
}

// moves returns the moves of n turns of the lever: what is eased comes first.
func (l lever) moves(m optics.Mirror, n float64) []Move {
	a, b := l.turns(n)
	ms := []Move{{Mirror: m, Screw: l.first, Turns: a}}
	if l.second >= 0 {
		ms = append(ms, Move{Mirror: m, Screw: l.second, Turns: b})
		if b < 0 {
			ms[0], ms[1] = ms[1], ms[0]
		}
	}
	return ms
}

// loss returns by how much n turns of the lever fall short because screws were
// reversed, in turns.
func (k Tracker) loss(l lever, n float64) float64 {
	a, b := l.turns(n)
	lost := k.lossOf(l.first, a)
	if l.second >= 0 {
		lost = (lost + k.lossOf(l.second, b)) / 2
	}
	return lost
}

func (k Tracker) lossOf(i int, turns float64) float64 {
	if turns == 0 || k.lastTo[i] != -math.Copysign(1, turns) {
		return 0
	}
	return math.Min(lostTravel, math.Abs(turns))
}
