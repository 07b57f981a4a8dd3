package mirrors

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"spotward/optics"
	"spotward/optics/adviser"
	"spotward/session/event"
)

// Locks are the primary's locks, by the index of the screw beside them.
type Locks struct {
	Eased   [4]float64 // turns each stands eased
	at      [4]float64 // travel of its screw when it was eased, turns
	blocked []int      // screws that a lock holds up, for it to be eased
	stuck   []int      // that do not ease
	Nipped  int        // rounds of nipping done in this visit
	Wrong   int        // of them that pulled the return spot off its place
	Cell    string     // what holds the mirror, as was said; "": not asked
}

// What holds the primary: springs that push it against its screws, or screws
// and locks against each other.
const (
	CellSprung   = "sprung"
	CellPushPull = "push_pull"
)

// Cell returns what holds the primary, as its file or somebody says; "" where
// nobody was asked.
func (s Work) Cell() string {
	switch optics.CellKind(s.Scope.Primary.Kind) {
	case optics.Sprung:
		return CellSprung
	case optics.PushPull:
		return CellPushPull
	}
	return s.Locks.Cell
}

// EaseTurns is how far a lock is eased: enough for the mirror to move, too
// little for it to tip. This program's own.
const EaseTurns = 0.25

// easeMoreTurns is what a lock that blocks its screw is eased beyond that, and
// mostEasedTurns how far in all. This program's own.
const (
	easeMoreTurns  = 0.125
	mostEasedTurns = 0.5
)

// lockToEase returns the first lock that still stands tight, or −1.
func (s Work) lockToEase() int {
	for i := range s.Tel.Primary.Locks {
		if s.Locks.Eased[i] < EaseTurns/2 && !slices.Contains(s.Locks.stuck, i) {
			return i
		}
	}
	return -1
}

// EasesTight reports whether that lock stands tight and is told to be eased now.
func (s Work) EasesTight(lock string) bool {
	return s.Due != nil && slices.ContainsFunc(s.Due.Moves, func(m event.ToldMove) bool {
		i, err := s.Index(m.Turn)
		return err == nil && m.Turns < 0 && m.Lock != "" && strings.EqualFold(m.Lock, lock) && s.Locks.Eased[i] < EaseTurns/2
	})
}

// lockStuck leaves a lock that does not ease alone, and the screw beside it: a mirror
// that is driven against a tight lock is bent. The others have its part.
func (s *Work) lockStuck(lock string) error {
	i, err := s.Index(optics.Turn{Mirror: optics.Primary, Lock: lock})
	if err != nil {
		return err
	}
	s.Locks.stuck, s.Locks.blocked = append(without(s.Locks.stuck, i), i), without(s.Locks.blocked, i)
	s.SetTracker(optics.Primary, s.Primary.Tracker.Says(i, adviser.Stuck, 0))
	s.Troubles = append(s.Troubles[:len(s.Troubles):len(s.Troubles)], fmt.Sprintf("primary lock %s: stuck", s.Tel.Primary.Labels[i]))
	s.Due = nil
	return nil
}

// AllTight reports whether the primary has locks and none of them was eased.
func (s Work) AllTight() bool { return s.Tel.Primary.Locks > 0 && s.Slack() <= SlackTurns }

// LocksToLearn reports whether it is not known what the locks pull, and the
// return spot is on the face to tell.
func (s Work) LocksToLearn() bool { return s.T.Known && !s.locksKnown() }

// locksKnown reports whether it is known what the locks pull: an earlier session
// learnt it, or this one has.
func (s Work) locksKnown() bool { return s.Primary.Learnt != nil || s.Primary.Redone }

// Easing returns what the locks are to be eased by before the moves ms of an
// advice: all of them where springs hold the mirror, else only those whose
// screws draw it back, by what that takes. It is nothing where it was left out,
// or is done.
func (s Work) Easing(ms []adviser.Move) []event.ToldMove {
	if s.lockToEase() < 0 || s.Phase.LocksLeft {
		return nil
	}
	var moves []event.ToldMove
	if s.Cell() == CellPushPull {
		for _, mv := range ms {
			if back := mv.Turns; !mv.Lock && back > 0 && mv.Screw < s.Tel.Primary.Locks {
				by := math.Ceil(back/easeMoreTurns)*easeMoreTurns - s.Locks.Eased[mv.Screw]
				if by = math.Min(by, mostEasedTurns-s.Locks.Eased[mv.Screw]); by >= SlackTurns {
					moves = append(moves, event.ToldMove{Turn: s.LockTurn(mv.Screw, -by)})
				}
			}
		}
		return moves
	}
	by := EaseTurns
	if s.Phase.Bitten { // they had bitten already
		by = easeMoreTurns
	}
	for i := range s.Tel.Primary.Locks {
		if s.Locks.Eased[i] < EaseTurns/2 && !slices.Contains(s.Locks.stuck, i) {
			moves = append(moves, event.ToldMove{Turn: s.LockTurn(i, -by)})
		}
	}
	return moves
}

// EasesLocks reports whether the first told moves ease all the locks, and returns
// the moves without a quarter turn of each.
func (s Work) EasesLocks(t event.Told) (rest []event.ToldMove, all bool) {
	n := s.Tel.Primary.Locks
	if n == 0 || len(t.Moves) < n {
		return t.Moves, false
	}
	for _, m := range t.Moves[:n] {
		if m.Lock == "" || m.Turns > -EaseTurns {
			return t.Moves, false
		}
		if m.Turns += EaseTurns; m.Turns < -SlackTurns { // more than the quarter
			rest = append(rest, m)
		}
	}
	return append(rest, t.Moves[n:]...), true
}

func (s Work) LockTurn(i int, turns float64) optics.Turn {
	return optics.Turn{Mirror: optics.Primary, Lock: s.Tel.Primary.Labels[i], Turns: turns}
}
