package mirrors

import (
	"errors"
	"fmt"
	"math"
	"strings"

	"spotward/optics"
	"spotward/optics/adviser"
	"spotward/session/event"
)

// How well it is told which way a spot sets off, 1σ, at the secondary and at the
// primary: the way itself is seen to some 10°, the rest is what a touch does
// beside what a turn does. Trainers' judgement.
const (
	wentSecondaryDeg = 20
	wentPrimaryDeg   = 30
)

var errNoWay = errors.New("which way did it set off? As in: went 7")

// Went takes which way the spot set off when the told move was begun with a
// touch and stopped at once. It is no look: where the spot is is less sure than
// before, and the move is told anew.
func (s *Work) Went(ev event.Event) error {
	if s.Due == nil || s.Due.Of() == 0 {
		return ErrNothingDue
	}
	way := math.Hypot(ev.Right, ev.Up)
	if !(way > 0) || math.IsInf(way, 0) {
		return errNoWay
	}
	touch, err := s.Touched(ev)
	if err != nil {
		return err
	}
	m := touch[0].Mirror
	deg := float64(wentSecondaryDeg)
	if m == optics.Primary {
		deg = wentPrimaryDeg
	}
	at := s.Tel.FromSeen(m.SpotFace(), optics.Seen{Right: ev.Right, Up: ev.Up})
	k := s.Tracker(m).Turn(touch, adviser.ByCue).Went(touch, at, deg*math.Pi/180)
	s.SetTracker(m, k)
	if m == optics.Secondary {
		s.secondaryTouched()
	}
	s.Due = nil
	return nil
}

// Touched returns what was turned to see the spot set off: a touch of the named
// screw in the told sense, and of its pair's other one.
func (s Work) Touched(ev event.Event) ([]adviser.Move, error) {
	if s.Due == nil {
		return nil, ErrNothingDue
	}
	at := -1
	for i, t := range s.Due.Moves {
		if t.Lock == "" && (ev.Screw == "" || strings.EqualFold(t.Screw, ev.Screw)) && (ev.Mirror == "" || ev.Mirror == t.Mirror) {
			at = i
			if ev.Screw != "" || t.Touch {
				break
			}
		}
	}
	if at < 0 {
		return nil, fmt.Errorf("%q was not told to be turned just now: say which way it went of %s", ev.Screw, s.Due.Moves[len(s.Due.Moves)-1].Screw)
	}
	turned := []event.ToldMove{s.Due.Moves[at]}
	if other, ok := s.partner(at); ok {
		turned = []event.ToldMove{other, turned[0]}
		if turned[0].Turns > 0 {
			turned[0], turned[1] = turned[1], turned[0]
		}
	}
	moves := make([]adviser.Move, len(turned))
	for i, t := range turned {
		n, err := s.Index(t.Turn)
		if err != nil {
			return nil, err
		}
		moves[i] = adviser.Move{Mirror: t.Mirror, Screw: n, Turns: math.Copysign(math.Min(adviser.TouchTurns(t.Mirror), math.Abs(t.Turns)), t.Turns)}
	}
	return moves, nil
}

// partner returns the other screw of the pair that the told move at i is one
// of: the one beside it that goes the other way by as much.
func (s Work) partner(i int) (event.ToldMove, bool) {
	is := s.Due.Moves[i]
	if !s.pairs(is.Mirror) {
		return event.ToldMove{}, false
	}
	from := i - 1
	if is.Turns < 0 {
		from = i + 1
	}
	for _, j := range []int{from, i - 1, i + 1} {
		if j < 0 || j >= len(s.Due.Moves) {
			continue
		}
		if t := s.Due.Moves[j]; t.Lock == "" && t.Mirror == is.Mirror && t.Turns*is.Turns < 0 {
			return t, true
		}
	}
	return event.ToldMove{}, false
}

// pairs reports whether mirror m's screws are told in pairs.
func (s Work) pairs(m optics.Mirror) bool {
	c := s.Tel.Cell(m)
	return c.Kind == optics.PushPull || c.Screws == 4
}
