package mirrors

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"spotward/optics"
	"spotward/optics/adviser"
	"spotward/session/event"
)

// ErrNothingDue says that nothing was told to be turned.
var ErrNothingDue = errors.New("nothing was told to turn just now")

// Made takes the told moves as made, as told: by amount, or watched until the
// cue.
func (s *Work) Made(watched bool) {
	if s.Due == nil {
		return
	}
	t := s.Due
	s.Due, s.Since.WantLook = nil, true
	s.Turn(t.Turns(), CuesOf(t, t.Turns(), watched))
	s.Snugged(t.Snug, t.Turns())
}

// CuesOf returns which of the turns a cue ended, of those that were told to be
// watched: each that had one. Of turns that were not told it is the last.
func CuesOf(told *event.Told, ts []optics.Turn, watched bool) []bool {
	cued := make([]bool, len(ts))
	if !watched || len(ts) == 0 {
		return cued
	}
	if told == nil || !slices.Equal(told.Turns(), ts) {
		cued[len(ts)-1] = true
		return cued
	}
	for i, m := range told.Moves {
		cued[i] = m.Stop != nil
	}
	return cued
}

// Index returns the place of a turn's screw or lock among the labels.
func (s Work) Index(t optics.Turn) (int, error) {
	name := t.Screw + t.Lock
	cell := s.Tel.Cell(t.Mirror)
	for i, l := range cell.Labels {
		if strings.EqualFold(l, name) && (t.Lock == "" || i < cell.Locks) && (t.Lock == "") != (t.Screw == "") {
			return i, nil
		}
	}
	return 0, fmt.Errorf("the %s has no screw or lock %q: its screws are %s", t.Mirror, name, strings.Join(cell.Labels, ", "))
}

// Turn brings turned screws and locks into the beliefs about both mirrors. cued
// are those that a cue ended, nil for none.
func (s *Work) Turn(ts []optics.Turn, cued []bool) {
	moves, how := map[optics.Mirror][]adviser.Move{}, map[optics.Mirror][]adviser.How{}
	nipped := false
	for at, t := range ts {
		i, err := s.Index(t)
		if err != nil {
			continue // checked where it was typed; an old journal may name what is gone
		}
		if t.Lock != "" {
			eased := noLock
			if t.Turns < 0 {
				eased = i
			}
			s.noIdle(eased)
			if s.Locks.Eased[i] < EaseTurns/2 && t.Turns < 0 {
				s.Locks.at[i] = s.Primary.Tracker.Travel(i)
			}
			was := pressing(s.Locks.Eased[i])
			s.Locks.Eased[i] -= t.Turns
			s.Primary.Tracker = s.Primary.Tracker.LockTurn(i, was-pressing(s.Locks.Eased[i]))
			s.Locks.blocked = without(s.Locks.blocked, i)
			nipped = nipped || t.Turns > 0
			continue
		}
		by := adviser.ByAmount
		if at < len(cued) && cued[at] {
			by = adviser.ByCue
		}
		moves[t.Mirror] = append(moves[t.Mirror], adviser.Move{Mirror: t.Mirror, Screw: i, Turns: t.Turns})
		how[t.Mirror] = append(how[t.Mirror], by)
	}
	if nipped {
		s.Nips++
	}
	if len(ts) > 0 {
		s.Since.Turns++
	}
	s.Red, s.Search.Missed = Spot{}, nil
	for m, ms := range moves {
		if s.lostBy() == m {
			s.Search.gone, s.Search.fetched = nil, true
		}
		s.Since.last = lastTurn{m, s.Tracker(m), ms}
		s.SetTracker(m, s.Tracker(m).Turn(ms, how[m]...))
		s.Moves++
	}
	switch {
	case moves[optics.Secondary] != nil:
		s.secondaryTouched()
		s.Snug.Moves++
	case moves[optics.Primary] != nil:
		s.T.Known, s.Hole.moved = false, true
	case len(ts) > 0:
		s.T.Known = false
	}
}

// secondaryTouched drops where both spots were: the fold aims the beam, and its
// screws are no longer snug.
func (s *Work) secondaryTouched() {
	s.P, s.T, s.Search.Rung, s.Search.Astray, s.Snug.Loose = Spot{}, Spot{}, optics.FaceTarget, false, true
	s.Primary.Tracker = s.Primary.Tracker.Lose()
	s.noIdle(noLock)
}

// HeldUp reports whether a screw that is said to be stuck is held up by the lock
// beside it, and whether that may still be eased.
func (s Work) HeldUp(m optics.Mirror, screw string) (byLock, easable bool) {
	i, err := s.Index(optics.Turn{Mirror: m, Screw: screw})
	if err != nil {
		return false, false
	}
	turns := s.takeBack(m, i)
	return s.onItsLock(m, i, turns), s.lockHolds(m, i, turns)
}

// EasedFor reports whether a lock was to be eased just now so that the screw beside
// it can go on.
func (s Work) EasedFor(lock string) bool {
	if s.Due == nil {
		return false
	}
	eased, wanted := false, false
	for _, mv := range s.Due.Moves {
		i, err := s.Index(mv.Turn)
		eased = eased || err == nil && mv.Turns < 0 && strings.EqualFold(mv.Lock, lock)
		wanted = wanted || strings.EqualFold(mv.Screw, lock) && mv.Turns > 0 || mv.Lock != "" && strings.EqualFold(mv.Lock, lock) && slices.Contains(s.Locks.blocked, i)
	}
	return eased && wanted
}

// unturned takes back what counted as turned before the last look.
func (s *Work) unturned() error {
	was := s.Since.looked
	if was.mirror == "" || s.Since.WantLook {
		return errors.New("nothing counted as turned before the last look: say what was turned, as in: B -1/8")
	}
	k, _ := was.from.Look(was.at)
	s.SetTracker(was.mirror, k)
	s.Since.looked, s.Due, s.Since.vain = looked{}, nil, vain{}
	s.noIdle(noLock)
	s.Moves--
	return nil
}

// otherWay takes the told moves as made, but for the screw that was turned the
// other way: the last of them where none is named.
func (s *Work) otherWay(screw string) error {
	if s.Due == nil {
		return s.wasOtherWay(screw)
	}
	moves := s.Due.Moves
	if screw == "" {
		screw = moves[len(moves)-1].Screw
	}
	ts := make([]optics.Turn, len(moves))
	named := false
	for i, m := range moves {
		ts[i] = m.Turn
		if strings.EqualFold(m.Screw, screw) {
			ts[i].Turns, named = -m.Turns, true
		}
	}
	if !named {
		return fmt.Errorf("%q was not told to be turned just now: say what was, as in: %s 1/8", screw, moves[0].Screw)
	}
	s.Due, s.Since.WantLook = nil, true
	s.Turn(ts, nil)
	return nil
}

// wasOtherWay takes a screw that was turned since the last look as turned the
// other way: the last of them where none is named.
func (s *Work) wasOtherWay(screw string) error {
	n := len(s.Since.last.moves)
	if !s.Since.WantLook || n == 0 {
		return ErrNothingDue
	}
	which := s.Since.last.moves[n-1].Screw
	if screw != "" {
		i, err := s.Index(optics.Turn{Mirror: s.Since.last.mirror, Screw: screw})
		if err != nil {
			return err
		}
		which = i
	}
	moves, turned := append([]adviser.Move(nil), s.Since.last.moves...), false
	for i := range moves {
		if moves[i].Screw == which {
			moves[i].Turns, turned = -moves[i].Turns, true
		}
	}
	if !turned {
		return fmt.Errorf("%q was not turned just now: say what was, as in: %s 1/8", screw, screw)
	}
	s.SetTracker(s.Since.last.mirror, s.Since.last.from.Turn(moves, adviser.ByAmount))
	s.Since.last.moves = moves
	return nil
}

// takeBack takes a screw that did not do what it should out of what was turned
// since the last look. It returns what was told or typed of it, in turns.
func (s *Work) takeBack(m optics.Mirror, screw int) float64 {
	if s.Due != nil {
		for _, mv := range s.Due.Moves {
			if i, err := s.Index(mv.Turn); err == nil && i == screw && mv.Mirror == m && mv.Lock == "" {
				return mv.Turns
			}
		}
	}
	if !s.Since.WantLook || s.Since.last.mirror != m {
		return 0
	}
	var others []adviser.Move
	turns := 0.0
	for _, mv := range s.Since.last.moves {
		if mv.Screw == screw {
			turns += mv.Turns
		} else {
			others = append(others, mv)
		}
	}
	if turns != 0 {
		s.SetTracker(m, s.Since.last.from.Turn(others, adviser.ByAmount))
		s.Since.last.moves = others
	}
	return turns
}

// lockHolds reports whether a stuck screw of the primary is one that its lock
// holds up: it was tightened against it, and the lock may still be eased a
// little.
func (s Work) lockHolds(m optics.Mirror, screw int, turns float64) bool {
	return s.onItsLock(m, screw, turns) && s.Locks.Eased[screw] < wobbleTurns-SlackTurns
}

// onItsLock reports whether a screw has a lock beside it and was tightened, or may
// have been, against it.
func (s Work) onItsLock(m optics.Mirror, screw int, turns float64) bool {
	return m == optics.Primary && screw < s.Tel.Primary.Locks && turns >= 0
}

func without(list []int, v int) []int {
	var out []int
	for _, w := range list {
		if w != v {
			out = append(out, w)
		}
	}
	return out
}

// isSaid reports whether a screw can say so.
func isSaid(is event.Says) bool {
	switch is {
	case event.SaysStuck, event.SaysFree, event.SaysEnd, event.SaysSlipped, event.SaysSticky, event.SaysStripped:
		return true
	}
	return false
}

// ScrewSaid takes what a screw said, or what really happened with it.
func (s *Work) ScrewSaid(ev event.Event) error {
	switch ev.Is {
	case event.SaysNotDone:
		if s.Due == nil {
			return ErrNothingDue
		}
		return nil // told again as it stands
	case event.SaysOtherWay:
		return s.otherWay(ev.Screw)
	case event.SaysUnturned:
		return s.unturned()
	case event.SaysLockStuck:
		return s.lockStuck(ev.Screw)
	}
	if !isSaid(ev.Is) {
		return fmt.Errorf("%q is nothing a screw says: stuck, free, end, slipped, sticky, stripped, other_way, not_done, not_turned", ev.Is)
	}
	t := optics.Turn{Mirror: ev.Mirror, Screw: ev.Screw}
	i, err := s.Index(t)
	if err != nil {
		return err
	}
	turns := s.takeBack(t.Mirror, i)
	if turns == 0 && ev.Is == event.SaysEnd && slices.Contains(s.Locks.blocked, i) {
		turns = 1 // nor will its lock ease: no farther onto it
	}
	s.Locks.blocked = without(s.Locks.blocked, i)
	if ev.Is == event.SaysStuck && s.lockHolds(t.Mirror, i, turns) {
		s.Locks.blocked = append(s.Locks.blocked, i)
		s.Due = nil
		return nil
	}
	if ev.Is == event.SaysFree && t.Mirror == optics.Secondary {
		s.Snug.Free, s.Snug.Loose, s.Due = true, true, nil // no fault of the screw: all of them want taking up
		return nil
	}
	if ev.Is == event.SaysSticky {
		s.Of(t.Mirror).jerky = true
	}
	is := adviser.ScrewSays(ev.Is)
	if is == adviser.Stuck && s.onItsLock(t.Mirror, i, turns) {
		is = adviser.End // held up by its lock, that way alone
	}
	s.SetTracker(t.Mirror, s.Tracker(t.Mirror).Says(i, is, turns))
	s.Troubles = append(s.Troubles[:len(s.Troubles):len(s.Troubles)], fmt.Sprintf("%s %s: %s", t.Mirror, strings.ToUpper(ev.Screw), ev.Is))
	s.Due = nil
	return nil
}

// Turnable checks that what was turned is there, and by no more than a hand can mean.
func (s Work) Turnable(ts []optics.Turn) error {
	for _, t := range ts {
		if _, err := s.Index(t); err != nil {
			return err
		}
		if !(t.Turns > -event.MaxTurns && t.Turns < event.MaxTurns) {
			return fmt.Errorf("%s turned by more than %d turns in one go: say how far again", t.Screw+t.Lock, event.MaxTurns)
		}
	}
	return nil
}
