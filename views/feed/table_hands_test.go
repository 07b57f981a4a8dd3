package feed_test

import (
	"math"

	"spotward/optics"
	"spotward/views/feed"
)

// turn makes the moves of an advice, and reports whether the last of them was
// watched. Where a screw sent the spot off another way than it should, the hand
// stops at once, and went says which.
func (p *player) turn(o said) (watched bool, went map[string]any) {
	moves := o.Advice.Moves
	m := moves[len(moves)-1].Mirror
	before, screws := p.off(o, m), false
	for i := 0; i < len(moves); i++ {
		mv := moves[i]
		if mv.Lock != "" {
			p.world.TurnLock(p.index(mv), signed(mv))
			continue
		}
		screws = true
		pair := []feed.Move{mv}
		if i+1 < len(moves) && p.paired(mv, moves[i+1]) {
			i++
			pair = append(pair, moves[i])
		}
		var way *optics.Seen
		if watched, way = p.pair(o, pair); way != nil {
			p.wents++
			return false, map[string]any{"screw": pair[len(pair)-1].Screw, "right": way.Right, "up": way.Up}
		}
	}
	if !screws {
		return false, nil
	}
	p.moves++
	if p.turned[m] {
		p.judged++
		if p.off(o, m) > before+1 {
			p.wrong++
		}
	}
	p.turned[m] = true
	return watched, nil
}

// paired reports whether two moves that follow each other are two screws against
// each other.
func (p *player) paired(a, b feed.Move) bool {
	return a.Stop == nil && a.Lock == "" && b.Lock == "" && signed(a) < 0 && signed(b) > 0
}

// pair turns a screw, or two against each other by turns, in their goes; the
// last one until its cue, where the spot is watched.
func (p *player) pair(o said, pair []feed.Move) (watched bool, way *optics.Seen) {
	last := pair[len(pair)-1]
	n := float64(max(1, last.Goes))
	watch := o.Advice.Watch && last.Stop != nil
	done := 0.0
	if watch && last.Touch {
		if way = p.touch(o, pair); way != nil {
			return false, way
		}
		done = touched(last)
	}
	for left := int(n); left > 0; left-- { // alternating: a plate of which one screw is eased alone hangs loose
		for _, mv := range pair {
			one := math.Copysign(math.Max(0, mv.Turns-done), signed(mv)) / n
			if !watch || mv.Screw != last.Screw {
				p.world.Turn(mv.Mirror, p.index(mv), one)
			} else if p.cue(o, mv, one, left == 1) {
				return true, nil
			}
		}
	}
	return watch, nil
}

// cue turns a screw until the spot stands at its cue, or by one go of several if that
// comes first: where the amount is at its end the cue alone counts. It reports whether
// the cue came.
func (p *player) cue(o said, mv feed.Move, one float64, ends bool) bool {
	at := func(p optics.Telescope, right, up float64) optics.Tube {
		return p.FromSeen(o.Face, optics.Seen{Right: right, Up: up})
	}
	goal := optics.Tube{}
	if o.Aim != nil {
		goal = at(p.hidden.truth, o.Aim.Right, o.Aim.Up)
	}
	stop := optics.Stop{At: at(p.hidden.truth, mv.Stop.Right, mv.Stop.Up), As: mv.Stop.As}
	sense := int(math.Copysign(1, signed(mv)))
	if !ends && math.Abs(p.world.Clone().WatchOn(o.Face, mv.Mirror, p.index(mv), sense, stop, goal).Turns) > math.Abs(one) {
		p.world.Turn(mv.Mirror, p.index(mv), one)
		return false
	}
	p.world.WatchOn(o.Face, mv.Mirror, p.index(mv), sense, stop, goal)
	return true
}

// touched is how far a screw is touched for the spot to set off.
func touched(mv feed.Move) float64 {
	touch := 1. / 16
	if mv.Mirror == optics.Primary {
		touch = 1. / 8
	}
	return math.Min(touch, mv.Turns)
}

// setsOffMM is how far a spot must have gone for its way to be said, as people are told.
const setsOffMM = 2

// touch turns a pair by a touch, and returns which way the spot set off, as far
// as eyes can tell, where it is another than it should be.
func (p *player) touch(o said, pair []feed.Move) *optics.Seen {
	last := pair[len(pair)-1]
	from := p.world.Sight(o.Face)
	for _, mv := range pair {
		p.world.Turn(mv.Mirror, p.index(mv), math.Copysign(touched(last), signed(mv)))
	}
	to := p.world.Sight(o.Face)
	right, up := to.Seen.Right-from.Seen.Right, to.Seen.Up-from.Seen.Up
	if math.Hypot(right, up) < setsOffMM || last.Toward == nil {
		return nil
	}
	s, c := math.Sincos(10 * math.Pi / 180 * p.rand.NormFloat64())
	right, up = right*c-up*s, right*s+up*c
	if right*last.Toward.Right+up*last.Toward.Up > math.Hypot(right, up)*math.Sqrt2/2 {
		return nil
	}
	return &optics.Seen{Right: right, Up: up}
}

func signed(mv feed.Move) float64 {
	if mv.Sense == "anticlockwise" {
		return -mv.Turns
	}
	return mv.Turns
}

// index returns the place of a move's screw or lock among the labels.
func (p *player) index(mv feed.Move) int {
	for i, l := range p.hidden.file.Telescope().Cell(mv.Mirror).Labels {
		if l == mv.Screw || l == mv.Lock {
			return i
		}
	}
	return -1
}
