package session

import (
	"fmt"
	"math"
	"strings"

	"spotward/optics"
)

// Advise returns what is to be told now, if anything is due: the moves for the
// step that waits for an answer. It is computed when it is to be told, and
// journalled as an event; the fold never computes it again.
func (s State) Advise() (Told, bool) {
	if s.Over || s.askMoved || s.told != nil || s.wantLook || s.doubt != nil {
		return Told{}, false
	}
	step := s.step()
	if step == nil || step.Tell == nil {
		return Told{}, false
	}
	return step.Tell(s)
}

// tell asks the adviser for the next move of mirror m toward g, and puts it
// into the labels and the frame of the reading that follows.
func (s State) tell(m optics.Mirror, g optics.Goal) (Told, bool) {
	k := s.Tracker(m)
	if !k.Seen() {
		return s.tellTakeBack(m)
	}
	if m == optics.Primary && len(s.blocked) > 0 {
		return s.tellUnblock(), true
	}
	a, ok := optics.Advise(k, g, optics.Options{Whole: s.Whole, Watching: s.Watching})
	if !ok {
		return Told{}, false
	}
	s.bite(m, &a)
	face := m.SpotFace()
	t := Told{
		Group: a.Group, Learning: a.Learning, Trust: round(a.Trust, 2),
		Moves: s.toldMoves(face, a.Moves), Then: s.toldMoves(face, a.Then),
		Why: s.why(m, g, a), Ask: s.limitAsk(k, a.Moves),
	}
	if s.headwayOf(m).justNow {
		t.Why = "what these screws do is learnt anew from here, the earlier turns have not told enough: carry on as you do; " + t.Why
	}
	if m == optics.Primary {
		if first := s.easeFirst(a); len(first) > 0 {
			t.Moves, t.Group = append(first, t.Moves...), optics.GroupLegs
			t.Why += "; the lock is eased first, or the mirror would be driven onto it"
		}
	}
	return t, true
}

// tellTakeBack takes the moves back after which the spot on the primary was
// nowhere, the last of them first.
func (s State) tellTakeBack(m optics.Mirror) (Told, bool) {
	if m != optics.Secondary || len(s.gone) == 0 {
		return Told{}, false
	}
	t := Told{Group: optics.GroupOne, Trust: 1, Why: "the spot was on the mirror before the last turn: take that back"}
	for i := len(s.gone) - 1; i >= 0; i-- {
		mv := s.gone[i]
		t.Moves = append(t.Moves, ToldMove{Turn: Turn{Mirror: m, Screw: s.Tel.Cell(m).Labels[mv.Screw], Turns: -mv.Turns}})
	}
	if len(t.Moves) > 1 {
		t.Group = optics.GroupPair
	}
	return t, true
}

// tellUnblock eases the locks that hold a screw up, an eighth more.
func (s State) tellUnblock() Told {
	t := Told{Group: optics.GroupOne, Trust: 1}
	for _, i := range s.blocked {
		t.Moves = append(t.Moves, ToldMove{Turn: s.lockTurn(i, -easeMoreTurns)})
	}
	if len(t.Moves) > 1 {
		t.Group = optics.GroupSet
	}
	t.Why = "the mirror is drawn back toward the lock, and the lock beside the stuck screw holds it up: an eighth more, half a turn in all at the most"
	return t
}

// The longest single bite, in turns: while it is not known yet what the screws
// do, and after. Common practice.
const (
	firstSecondaryTurns = 0.125
	firstPrimaryTurns   = 0.25
	secondaryTurns      = 0.25
	primaryTurns        = 0.5
	finestTurns         = 1. / 32
)

// longestBite returns the longest single bite at mirror m: what its screws do is
// known, or not yet.
func longestBite(m optics.Mirror, known bool) float64 {
	switch {
	case m == optics.Secondary && !known:
		return firstSecondaryTurns
	case m == optics.Secondary:
		return secondaryTurns
	case !known:
		return firstPrimaryTurns
	}
	return primaryTurns
}

// bite cuts an advice to what is turned in one go before the next look. What
// is left of it follows from that look.
func (s State) bite(m optics.Mirror, a *optics.Advice) {
	k := s.Tracker(m)
	most, longest := longestBite(m, s.turnedBefore(m)), 0.0
	for _, mv := range a.Moves {
		longest = math.Max(longest, math.Abs(mv.Turns))
	}
	if longest <= most {
		return
	}
	at := k.Spot().At
	moves := make([]optics.Move, len(a.Moves))
	for i, mv := range a.Moves {
		mv.Turns = math.Round(mv.Turns*most/longest/finestTurns) * finestTurns
		at = at.Add(k.PerTurn(mv.Screw).At.Scale(mv.Turns))
		if mv.Stop != nil {
			mv.Stop = &optics.Stop{At: at, As: optics.StopPoint}
		}
		moves[i] = mv
	}
	a.Moves, a.Then, a.After = moves, nil, at
}

// turnedBefore reports whether it is known what mirror m's screws do: one was
// turned in this session, or an earlier one taught it.
func (s State) turnedBefore(m optics.Mirror) bool {
	return s.learnt[m] != nil || s.turnedHere(m)
}

// turnedHere reports whether a screw of mirror m was turned in this session.
func (s State) turnedHere(m optics.Mirror) bool {
	for i := range s.Tel.Cell(m).Screws {
		if s.Tracker(m).Travel(i) != 0 {
			return true
		}
	}
	return false
}

func (s State) toldMoves(face optics.Face, ms []optics.Move) []ToldMove {
	var out []ToldMove
	for _, m := range ms {
		label := s.Tel.Cell(m.Mirror).Labels[m.Screw]
		t := ToldMove{Turn: Turn{Mirror: m.Mirror, Turns: m.Turns}}
		if m.Lock {
			t.Lock = label
		} else {
			t.Screw = label
		}
		if m.Stop != nil {
			seen := s.Tel.ToSeen(face, m.Stop.At)
			t.Stop = &ToldStop{Right: round(seen.Right, 1), Up: round(seen.Up, 1), As: m.Stop.As}
		}
		out = append(out, t)
	}
	return out
}

// round keeps amounts from differing in their last digits between machines.
func round(v float64, digits int) float64 {
	p := math.Pow10(digits)
	r := math.Round(v*p) / p
	if r == 0 {
		return 0 // no minus nought
	}
	return r
}

// why says in a sentence what the move rests on.
func (s State) why(m optics.Mirror, g optics.Goal, a optics.Advice) string {
	if len(a.Moves) == 0 {
		return ""
	}
	mv := a.Moves[len(a.Moves)-1]
	label := s.Tel.Cell(m).Labels[mv.Screw]
	per := s.Tracker(m).PerTurn(mv.Screw).At
	if mv.Turns < 0 {
		per = per.Scale(-1)
	}
	toward := s.Tel.ToDial(m.SpotFace(), s.Tel.ToSeen(m.SpotFace(), per))
	words := fmt.Sprintf("%s takes the spot toward %s, about %.0f mm a turn, as learnt so far", label, HourWords(toward), per.Len())
	if a.Learning {
		words = fmt.Sprintf("a first turn of %s to learn what it does: toward %s is the guess", label, HourWords(toward))
	}
	if a.After.Sub(g.At).Len() >= s.Tracker(m).Spot().At.Sub(g.At).Len() {
		words += "; it comes no nearer by this turn, but by the next"
	}
	return words
}

// Net travel in one session beyond which a person is asked first. Common
// practice.
const (
	askSecondaryTurns = 0.5
	askPrimaryTurns   = 1.0
)

// limitAsk returns the question that a screw near its limit calls for, or "".
func (s State) limitAsk(k optics.Tracker, ms []optics.Move) string {
	if len(ms) > 0 {
		if words := s.inVain(ms[0].Mirror); words != "" {
			return words
		}
	}
	for _, m := range ms {
		limit, what := askPrimaryTurns, "is it still against its spring and not at its end?"
		if m.Mirror == optics.Secondary {
			limit, what = askSecondaryTurns, "laser OFF and OUT first, then look through the empty focuser: is the secondary still round and in the middle? Then laser back in, card up, on."
		}
		net := k.Travel(m.Screw)
		if !m.Lock && limitsPassed(net+m.Turns, limit) > limitsPassed(net, limit) {
			return fmt.Sprintf("%s will have gone %s turns from where it was: %s", s.Tel.Cell(m.Mirror).Labels[m.Screw], TurnsText(math.Abs(net+m.Turns)), what)
		}
	}
	return ""
}

// limitsPassed returns how often net turns are past a limit: once there, and once
// more at each further half of it, so that it is not asked at every turn.
func limitsPassed(net, limit float64) int {
	over := math.Abs(net) - limit
	if over <= 0 {
		return 0
	}
	return 1 + int(over/(limit/2))
}

func optionIDs(opts []Option) string {
	ids := make([]string, len(opts))
	for i, o := range opts {
		ids[i] = o.ID
	}
	return strings.Join(ids, ", ")
}
