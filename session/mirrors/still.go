package mirrors

import (
	"math"

	"spotward/optics"
	"spotward/optics/adviser"
)

// How much of a foretold way must be seen for a screw to have moved anything,
// how long a way says so at all, mm and in errors of the readings, and how far a
// screw is turned in vain, in turns, for once to be enough. Trainers' judgement.
const (
	MovedPart     = 0.3
	TellingMM     = 5
	tellingSigmas = 3
	stillsInARow  = 2
	vainTurns     = 0.5
)

// vain is what was turned in a row, the same screws the same way, and moved
// nothing as yet, and what was believed before it.
type vain struct {
	from  adviser.Tracker
	moves []adviser.Move // a screw once, all its turns together
	times int
}

// with returns v and one move more: of other screws, or the other way, it begins
// anew.
func (v vain) with(last lastTurn) vain {
	sum := append([]adviser.Move(nil), last.moves...)
	if len(v.moves) != len(sum) {
		return vain{last.from, sum, 1}
	}
	for i, mv := range v.moves {
		if mv.Screw != sum[i].Screw || mv.Turns*sum[i].Turns <= 0 {
			return vain{last.from, sum, 1}
		}
		sum[i].Turns += mv.Turns
	}
	return vain{v.from, sum, v.times + 1}
}

// noteStill takes a look after a move of the primary. Where it, and what went
// before it the same way, moved nothing, two times or by half a turn, the lock
// beside the screw is taken to hold it up, or, where that is eased already, the
// screw to go no farther that way: half of the people who feel that do not say
// so. What was thought of the screws is not changed by it.
func (s *Work) noteStill(m optics.Mirror, z optics.Belief) {
	last := s.Since.last
	s.Since.last = lastTurn{}
	if m != optics.Primary {
		return
	}
	if last.mirror != m || len(last.moves) == 0 || len(last.moves) > 2 || !last.from.Seen() {
		s.Since.vain = vain{}
		return
	}
	v := s.Since.vain.with(last)
	s.Since.vain = v
	was := v.from.Spot()
	foretold, longest, held := v.from.Likely(v.moves).Len(), 0.0, v.moves[0]
	for _, mv := range v.moves {
		longest = math.Max(longest, math.Abs(mv.Turns))
		if mv.Turns > held.Turns {
			held = mv // of a pair the one that is taken up: the other only lets go
		}
	}
	switch {
	case z.At.Sub(was.At).Len() > MovedPart*foretold:
		s.Since.vain = vain{}
		return
	case foretold < math.Max(TellingMM, tellingSigmas*was.Cov.Add(z.Cov).Sigma()), v.times < stillsInARow && longest < vainTurns:
		return
	}
	s.Since.vain = vain{}
	k, _ := v.from.Look(z)
	if s.lockHolds(m, held.Screw, held.Turns) {
		s.Locks.blocked = append(without(s.Locks.blocked, held.Screw), held.Screw)
		s.SetTracker(m, k)
		return
	}
	s.SetTracker(m, k.Says(held.Screw, adviser.End, held.Turns)) // that way; the other is not known to be barred
}
