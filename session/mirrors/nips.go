package mirrors

import (
	"math"
	"spotward/optics"
	"spotward/optics/adviser"
	"spotward/session/event"
)

// MaxNips is how many rounds are tried before what is left is accepted and
// said: by then it is the lock, not the hand.
const MaxNips = 9

// Slack returns how far the locks still stand eased, in turns, the widest.
func (s Work) Slack() float64 {
	w := 0.0
	for i := range s.Tel.Primary.Locks {
		w = math.Max(w, s.Locks.Eased[i])
	}
	return w
}

// SlackTurns is what counts as tight: less than any hand can tell.
const SlackTurns = 1. / 64

// Parked reports whether the return spot stands where the locks may bite.
func (s Work) Parked() bool { return s.there(optics.Primary, s.T, s.HomeGoal()) }

// Nipped takes a round of nips that was looked at.
func (s *Work) Nipped() {
	s.Locks.Nipped++
	if !s.there(optics.Primary, s.T, s.parkGoal(0)) {
		s.Locks.Wrong++
	}
}

// CanNip reports whether the locks may be nipped: the spot stands right, or
// enough was tried.
func (s Work) CanNip() bool { return s.Parked() || s.Locks.Nipped >= MaxNips }

func (s Work) TellNip() (event.Told, bool) {
	if !s.CanNip() {
		return event.Told{}, false
	}
	t := event.Told{Group: adviser.GroupSet, Trust: 1, Why: "a little each and round again: so no lock drags the mirror far"}
	t.Snug = s.hangs() && s.Locks.Nipped == 0
	last := true
	for i := range s.Tel.Primary.Locks {
		n := s.nipOf(i)
		if n <= 0 {
			continue
		}
		move := event.ToldMove{Turn: s.LockTurn(i, n)}
		if n > 2*touchTurns+SlackTurns {
			move.Goes = int(math.Round(n / touchTurns)) // a touch each, round and round
		}
		if s.lockByLock() {
			t.Moves, t.Group = []event.ToldMove{move}, adviser.GroupOne
			t.Why = "two rounds pulled it off, so now one lock at a time, with a look after each"
			return t, true
		}
		t.Moves = append(t.Moves, move)
		last = last && s.LastNip(move.Turn)
	}
	if last {
		t.Why = "the last round: stop when two fingers on the key's short arm hold it, even sooner or later than told"
	}
	return t, len(t.Moves) > 0
}

// hangs reports whether one of the primary's screws may hang free: a plate on four
// stands on three of them, and rocks until the fourth is taken up.
func (s Work) hangs() bool { return s.Tel.Primary.Screws > 3 }

// touchesMM is how far the return spot may go as such a screw is taken up until
// it touches, 1σ. This program's own.
const touchesMM = 1

// touchTurns is what is left for the last round, and what the first takes where
// it is not known what the locks pull.
const touchTurns = 1. / 16

// lastNipTurns is with how much left only the last round is to come, after which
// nothing is turned any more.
const lastNipTurns = 1.5 * touchTurns

// nipOf returns by how much lock i is tightened before the next look. Where it
// is known what the locks pull: all but a touch, then the touch. Where it is not:
// a touch before that. With a look for each lock: at most an eighth.
func (s Work) nipOf(i int) float64 {
	left := s.Locks.Eased[i]
	most := left - touchTurns
	if s.lockByLock() {
		most = math.Min(most, 2*touchTurns)
	}
	switch {
	case left <= SlackTurns:
		return 0
	case left < 2*touchTurns:
		return left
	case s.Locks.Nipped == 0 && !s.locksKnown():
		return touchTurns
	}
	return most
}

// NipsLeft returns after how many more looks the locks are tight, if no round
// goes wrong.
func (s Work) NipsLeft() int {
	n := 0
	for s.Slack() > SlackTurns {
		looks := 1
		if s.lockByLock() {
			looks = 0
		}
		for i := range s.Tel.Primary.Locks {
			step := s.nipOf(i)
			s.Locks.Eased[i] -= step
			if s.lockByLock() && step > 0 {
				looks++
			}
		}
		n += looks
		s.Locks.Nipped++
	}
	return n
}

// wrongToPart is after how many rounds that pulled the spot off its place each lock
// gets a look of its own. This program's own, of 900 sessions a row of the feed's table:
// after the first it costs one answer more and nothing is left the nearer for it.
const wrongToPart = 2

// lockByLock reports whether each lock gets a look of its own, and not enough was
// tried yet.
func (s Work) lockByLock() bool {
	return s.Locks.Wrong >= wrongToPart && s.Locks.Nipped < MaxNips
}
