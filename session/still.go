package session

import (
	"math"

	"spotward/optics"
	"spotward/optics/adviser"
)

// How much of a foretold way must be seen for a screw to have moved anything,
// how long a way says so at all, mm and in errors of the readings, and how far a
// screw is turned in vain, in turns, for once to be enough. Trainers' judgement.
const (
	movedPart     = 0.3
	tellingMM     = 5
	tellingSigmas = 3
	stillsInARow  = 2
	vainTurns     = 0.5
)

// noteStill takes a look after a move that moved nothing. After two in a row, or
// half a turn, the lock beside the screw is taken to hold it up, or, where that
// is eased already, the screw to go no farther that way: half of the people who
// feel that do not say so. What was thought of the screws is not changed by it.
func (s *State) noteStill(m optics.Mirror, z optics.Belief) {
	last := s.since.last
	s.since.last = lastTurn{}
	if m != optics.Primary || last.mirror != m || len(last.moves) == 0 || len(last.moves) > 2 || !last.from.Seen() {
		return
	}
	was := last.from.Spot()
	foretold := last.from.Likely(last.moves).Len()
	longest := 0.0
	for _, mv := range last.moves {
		longest = math.Max(longest, math.Abs(mv.Turns))
	}
	switch {
	case foretold < math.Max(tellingMM, tellingSigmas*was.Cov.Add(z.Cov).Sigma()):
		return
	case z.At.Sub(was.At).Len() > movedPart*foretold:
		s.since.still = 0
		return
	}
	if s.since.still++; s.since.still < stillsInARow && longest < vainTurns {
		return
	}
	s.since.still = 0
	held := last.moves[0]
	for _, mv := range last.moves {
		if mv.Turns > held.Turns {
			held = mv // of a pair the one that is taken up: the other only lets go
		}
	}
	k, _ := last.from.Look(z)
	if s.lockHolds(m, held.Screw, held.Turns) {
		s.locks.blocked = append(without(s.locks.blocked, held.Screw), held.Screw)
		s.setTracker(m, k)
		return
	}
	s.setTracker(m, k.Says(held.Screw, adviser.End, held.Turns)) // that way; the other is not known to be barred
}
