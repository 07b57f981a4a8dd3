package mirrors

import (
	"math"
	"slices"

	"spotward/optics"
	"spotward/optics/adviser"
	"spotward/session/event"
)

// Locks stand behind the mirror, each beside its screw. A screw that draws the
// mirror back brings it nearer to its lock: with threads alike, by a turn for a
// turn. So an eased lock leaves as much room as it was eased, less what its
// screw has drawn the mirror back since.

// room returns by how many turns screw i of the primary can still be tightened,
// and false where no lock was eased there.
func (s Work) room(i int) (turns float64, ok bool) {
	if i >= s.Tel.Primary.Locks || s.Locks.Eased[i] < EaseTurns/2 {
		return 0, false
	}
	drawn := s.Primary.Tracker.Travel(i) - s.Locks.at[i]
	return s.Locks.Eased[i] - drawn, true
}

// easedFirst puts before an advice what is eased first: all the locks, or those
// that a screw would drive the mirror onto.
func (s Work) easedFirst(t *event.Told, a adviser.Advice) {
	first, why := s.Easing(a.Moves), ". The locks are eased first, or they hold the mirror"
	if len(first) == 0 {
		why = ". The lock is eased first, or the mirror would be driven onto it"
	}
	for _, m := range first { // what a long move needs beyond that comes on top
		if i, err := s.Index(m.Turn); err == nil {
			if s.Locks.Eased[i] < EaseTurns/2 {
				s.Locks.at[i] = s.Primary.Tracker.Travel(i)
			}
			s.Locks.Eased[i] -= m.Turns
		}
	}
	for _, more := range s.easeFirst(a) {
		at := slices.IndexFunc(first, func(m event.ToldMove) bool { return m.Lock == more.Lock })
		if at < 0 {
			first = append(first, more)
			continue
		}
		first[at].Turns += more.Turns
	}
	if len(first) == 0 {
		return
	}
	t.Moves, t.Group = append(first, t.Moves...), adviser.GroupLegs
	t.Why += why
}

// wobbleTurns is how far a lock is eased beside a screw that it holds up: beyond
// half a turn it is asked about first, and here it wobbles. Common practice.
const wobbleTurns = 0.75

// easeFirst puts before an advice's moves what their locks must be eased by, so
// that no screw drives the mirror onto a lock.
func (s Work) easeFirst(a adviser.Advice) []event.ToldMove {
	var first []event.ToldMove
	for _, mv := range a.Moves {
		room, ok := s.room(mv.Screw)
		if !ok || mv.Lock || mv.Turns <= 0 {
			continue
		}
		short := math.Abs(mv.Turns) - room
		if short < SlackTurns {
			continue
		}
		more := math.Min(math.Ceil(short/easeMoreTurns)*easeMoreTurns, mostEasedTurns-s.Locks.Eased[mv.Screw])
		if more >= SlackTurns {
			first = append(first, event.ToldMove{Turn: s.LockTurn(mv.Screw, -more)})
		}
	}
	return first
}

// LastNip reports whether a turn takes a lock to where it was before it was
// eased: it is turned until two fingers hold it, by whatever that takes.
func (s Work) LastNip(t optics.Turn) bool {
	if t.Lock == "" || t.Turns <= 0 {
		return false
	}
	i, err := s.Index(t)
	return err == nil && s.Locks.Eased[i] > SlackTurns && math.Abs(s.Locks.Eased[i]-t.Turns) <= SlackTurns
}

// pressing returns how much of a lock's turns press the mirror: one that is eased
// beyond the first quarter stands off.
func pressing(easedTurns float64) float64 { return math.Min(easedTurns, EaseTurns) }
