package mirrors

import (
	"fmt"
	"math"

	"spotward/optics"
	"spotward/optics/adviser"
	"spotward/session/words"
)

// movingPart is how much of a foretold way must be seen for a screw to count as
// turning after all. Trainers' judgement.
const movingPart = 0.5

// idle is what a screw of the primary was turned the same way, other screws in
// between, since it was last seen to move the spot.
type idle struct {
	at     optics.Belief // the spot as it was read before
	way    optics.Tube   // what a turn of it was thought to do then, mm
	turns  float64       // signed, clockwise positive; 0: none
	beside optics.Tube   // what the other screws were thought to do meanwhile, mm
	times  int           // it was
	vain   bool          // half a turn of it and more has plainly not moved the spot
}

// went returns how far the spot at z has gone the way that the screw should have
// taken it, how far it should be, and the error of the two readings along that
// way, 1σ, all in mm.
func (d idle) went(z optics.Belief) (went, should, sigma float64) {
	way := d.way.Scale(d.turns)
	should = way.Len()
	if should == 0 {
		return 0, 0, 0
	}
	e := way.Scale(1 / should)
	c := d.at.Cov.Add(z.Cov)
	return z.At.Sub(d.at.At).Sub(d.beside).Dot(e), should, math.Sqrt(c.XX*e.X*e.X + 2*c.XY*e.X*e.Y + c.YY*e.Y*e.Y)
}

// moved returns how far the spot at z has gone, whichever way, that the other
// screws do not explain, mm.
func (d idle) moved(z optics.Belief) float64 { return z.At.Sub(d.at.At).Sub(d.beside).Len() }

// noteIdle takes a look at the return spot after screws of the primary were turned.
// It is for what is told next alone: nothing that is believed changes by it.
func (s *Work) noteIdle(m optics.Mirror, z optics.Belief) {
	if m != optics.Primary || s.Tel.Primary.Screws != 3 { // of four, two go against each other
		return
	}
	last, before := s.Since.last, s.Since.read
	s.Since.read = z
	if last.mirror != m || before == (optics.Belief{}) || !last.from.Seen() {
		return
	}
	all := last.from.Likely(last.moves)
	for i := range s.Since.idle {
		d, turned := &s.Since.idle[i], 0.0
		for _, mv := range last.moves {
			if mv.Screw == i && !mv.Lock {
				turned += mv.Turns
			}
		}
		way := last.from.Likely([]adviser.Move{{Mirror: m, Screw: i, Turns: 1}})
		rest := all.Sub(way.Scale(turned))
		switch {
		case turned == 0 && d.turns == 0:
			continue
		case d.vain && d.way == (optics.Tube{}): // found to be so before the locks were nipped
			if d.turns*turned < 0 {
				*d = idle{at: before, way: way, turns: turned, beside: rest, times: 1}
			}
			continue
		case turned == 0 || d.turns*turned > 0:
			d.turns += turned
			if turned != 0 {
				d.times++
			}
			d.beside = d.beside.Add(rest)
		default:
			*d = idle{at: before, way: way, turns: turned, beside: rest, times: 1}
		}
		if turned == 0 {
			continue // the others' errors are no motion of it
		}
		went, should, sigma := d.went(z)
		if went >= movingPart*should {
			*d = idle{}
			continue
		}
		d.vain = d.vain || d.times >= stillsInARow && math.Abs(d.turns) >= vainTurns && should >= math.Max(TellingMM, tellingSigmas*sigma) && math.Abs(went) < MovedPart*should && d.moved(z) < movingPart*should
	}
}

// noIdle begins to count anew: something else has moved the spot, or nobody knows
// where it is. A screw that moved nothing is still one, unless the lock that may
// have held it was eased.
func (s *Work) noIdle(eased int) {
	s.Since.read = optics.Belief{}
	for i, d := range s.Since.idle {
		s.Since.idle[i] = idle{}
		if d.vain && i != eased {
			s.Since.idle[i] = idle{turns: d.turns, vain: true}
		}
	}
}

// noLock is for noIdle: no lock was eased.
const noLock = -1

// withoutIdle has advice do without the screws that moved nothing, the way they
// were turned: the others have their part.
func (s Work) withoutIdle(m optics.Mirror, k adviser.Tracker) adviser.Tracker {
	if m != optics.Primary {
		return k
	}
	for i := range s.Since.idle {
		if s.Since.idle[i].vain && k.Said(i) == "" {
			k = k.Says(i, adviser.End, s.Since.idle[i].turns)
		}
	}
	return k
}

// idleIn returns the first of the moves of mirror m that goes on with a screw which so
// turned has moved nothing.
func (s Work) idleIn(m optics.Mirror, moves []adviser.Move) (screw int, ok bool) {
	for _, mv := range moves {
		if m != optics.Primary || mv.Lock || mv.Screw >= len(s.Since.idle) {
			continue
		}
		if d := s.Since.idle[mv.Screw]; d.vain && d.turns*mv.Turns > 0 && s.Tracker(m).Said(mv.Screw) == "" {
			return mv.Screw, true
		}
	}
	return 0, false
}

// idleAsk asks about a screw that has just been turned in vain, "" where there is none.
func (s Work) idleAsk(m optics.Mirror) (ask, brief string) {
	if m != optics.Primary || s.Since.looked.mirror != m {
		return "", ""
	}
	for _, mv := range s.Since.looked.moves {
		if mv.Lock || mv.Screw >= len(s.Since.idle) || !s.Since.idle[mv.Screw].vain || s.Tracker(m).Said(mv.Screw) != "" {
			continue
		}
		screw := s.Tel.Primary.Labels[mv.Screw]
		return fmt.Sprintf("%s was turned by %s. No look shows that it moved the spot. Does it turn hard, or loose? Type stuck %s or free %s. If nobody turned it, type: not turned.",
				screw, words.SpokenAmount(s.Since.idle[mv.Screw].turns), screw, screw),
			fmt.Sprintf("%s moved nothing: type stuck %s or free %s.", screw, screw, screw)
	}
	return "", ""
}
