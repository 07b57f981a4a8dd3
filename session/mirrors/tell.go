package mirrors

import (
	"fmt"
	"math"
	"slices"

	"spotward/optics"
	"spotward/optics/adviser"
	"spotward/session/event"
	"spotward/session/words"
)

// Tell asks the adviser for the next move of mirror m toward g, and puts it
// into the labels and the frame of the reading that follows.
func (s Work) Tell(at optics.Face, m optics.Mirror, g optics.Goal) (event.Told, bool) {
	k := s.Tracker(m)
	if !k.Seen() {
		return s.TellTakeBack(m)
	}
	if m == optics.Primary && len(s.Locks.blocked) > 0 {
		return s.tellUnblock(), true
	}
	a, watch, ok := s.adviseWatching(at, k, m, g)
	if !ok {
		return event.Told{}, false
	}
	if i, idle := s.idleIn(m, a.Moves); idle {
		if s.lockHolds(m, i, s.Since.idle[i].turns) {
			return s.tellHeld(i), true
		}
		if b, w, ok := s.adviseWatching(at, s.withoutIdle(m, k), m, g); ok && !slices.ContainsFunc(b.Moves, func(mv adviser.Move) bool { return mv.Screw == i && !mv.Lock }) {
			a, watch = b, w
		}
	}
	if !watch {
		s.bite(m, &a)
	}
	face := m.SpotFace()
	t := event.Told{
		Group: a.Group, Learning: a.Learning, Trust: words.Round(a.Trust, 2), Watch: watch,
		Moves: s.toldMoves(face, a.Moves), Then: s.toldMoves(face, a.Then),
		Why: s.why(m, a),
	}
	s.ways(k, m, a, t.Moves)
	goes(m, t.Moves)
	goes(m, t.Then)
	t.Ask, t.Brief = s.limitAsk(k, a.Moves, t.Moves)
	if s.Of(m).Headway.justNow {
		t.Why = "what these screws do is learnt again from here, so carry on; " + t.Why
	}
	if m == optics.Primary {
		t.Snug = s.hangs()
		s.easedFirst(&t, a)
	}
	return t, true
}

// adviseWatching asks the adviser: for a move that is watched where that can be and is
// safe, else for one by amount.
func (s Work) adviseWatching(at optics.Face, k adviser.Tracker, m optics.Mirror, g optics.Goal) (a adviser.Advice, watch, ok bool) {
	if s.canWatch(at, m) {
		o := adviser.Options{Whole: s.Whole, Watching: true, Ways: true, Legs: true, LeastMM: leastGainMM}
		if a, ok = adviser.Advise(k, g, o); ok && a.Group == adviser.GroupLegs && s.touches(a) {
			o.Legs = false
			a, ok = adviser.Advise(k, g, o)
		}
		if !ok || m == optics.Primary || s.staysCovered(k, a) || s.shorter(k, &a) {
			return a, ok, ok
		}
	}
	a, ok = adviser.Advise(k, g, adviser.Options{Whole: s.Whole, LeastMM: leastGainMM})
	return a, false, ok
}

// touches reports whether the second of two legs is no more than a touch: by then the
// first has ended as near as a hand brings it.
func (s Work) touches(a adviser.Advice) bool {
	return math.Abs(a.Moves[len(a.Moves)-1].Turns) <= touchLegTurns
}

// ways says of each told move which way the spot sets off, of a pair by the
// screw that is taken up, and whether that is a guess.
func (s Work) ways(k adviser.Tracker, m optics.Mirror, a adviser.Advice, told []event.ToldMove) {
	for i, mv := range a.Moves {
		turned := []adviser.Move{mv}
		if s.pairs(m) {
			if mv.Turns < 0 || i == 0 {
				continue // eased: the spot sets off as its partner is taken up
			}
			turned = a.Moves[i-1 : i+1]
		}
		way := k.Likely(turned)
		if n := way.Len(); n > 0 {
			seen := s.Tel.ToSeen(s.nextFace(m, a.After), way.Scale(1/n))
			told[i].Toward = &event.Way{Right: words.Round(seen.Right, 2), Up: words.Round(seen.Up, 2)}
			told[i].Touch = a.Touch && mv.Stop != nil
		}
	}
}

// nextFace returns the face on which the spot of mirror m is looked at after a
// move that should bring it to at: the return spot from another place than its
// face, until it comes there.
func (s Work) nextFace(m optics.Mirror, at optics.Tube) optics.Face {
	if m == optics.Secondary || at.Len() < s.Tel.Target.FaceRadiusMM {
		return m.SpotFace()
	}
	return s.Search.Rung
}

// TellTakeBack takes the moves of mirror m back after which its spot was nowhere,
// the last of them first.
func (s Work) TellTakeBack(m optics.Mirror) (event.Told, bool) {
	if s.lostBy() != m {
		return event.Told{}, false
	}
	t := event.Told{Group: adviser.GroupOne, Trust: 1, Why: "the spot was seen before the last turn, so undo that turn"}
	for i := len(s.Search.gone) - 1; i >= 0; i-- {
		mv := s.Search.gone[i]
		t.Moves = append(t.Moves, event.ToldMove{Turn: optics.Turn{Mirror: m, Screw: s.Tel.Cell(m).Labels[mv.Screw], Turns: -mv.Turns}})
	}
	if len(t.Moves) > 1 {
		t.Group = adviser.GroupPair
	}
	return t, true
}

// tellUnblock eases the locks that hold a screw up, an eighth more.
func (s Work) tellUnblock() event.Told {
	t := event.Told{Group: adviser.GroupOne, Trust: 1}
	for _, i := range s.Locks.blocked {
		t.Moves = append(t.Moves, event.ToldMove{Turn: s.LockTurn(i, -easeMoreTurns)})
		if eased := s.Locks.Eased[i] + easeMoreTurns; eased > mostEasedTurns+SlackTurns {
			t.Ask = fmt.Sprintf("This eases lock %s to %s turns. If it wobbles, leave it and type what it is.", s.Tel.Primary.Labels[i], words.TurnsText(eased))
			t.Brief = "If the lock wobbles, leave it and type what it is."
		}
	}
	if len(t.Moves) > 1 {
		t.Group = adviser.GroupSet
	}
	t.Why = "the lock beside the screw may hold it: ease that an eighth more"
	return t
}

// tellHeld eases the lock that may hold a screw up which has moved nothing, and asks
// what it is.
func (s Work) tellHeld(screw int) event.Told {
	s.Locks.blocked = []int{screw}
	t := s.tellUnblock()
	if t.Ask == "" {
		t.Ask, t.Brief = s.idleAsk(optics.Primary)
	}
	return t
}

// touchLegTurns is the shortest second leg that is told, in turns. This program's own.
const touchLegTurns = 1. / 64

// The longest move while it is not known what the screws do, in turns: the first
// of a mirror, and after. Common practice, but for the first of the primary: by a
// quarter the return spot goes 3 to 5 mm, no more than the look at it errs by where
// it is not on its face yet, and the next move is a guess again.
const (
	firstSecondaryTurns = 0.125
	secondaryTurns      = 0.25
	primaryTurns        = 0.5
)

// FinestTurns is the least step of a hand.
const FinestTurns = adviser.FinestTurns

// LongestBite returns the longest move at mirror m while it is not known yet what
// its screws do: the first, or one after. What is known is turned as far as it
// must be, in goes.
func LongestBite(m optics.Mirror, first bool) float64 {
	switch {
	case m == optics.Secondary && first:
		return firstSecondaryTurns
	case m == optics.Secondary:
		return secondaryTurns
	}
	return primaryTurns
}

// bite cuts an advice of which it is not known what it does to what is turned
// before the next look. What is left of it follows from that look.
func (s Work) bite(m optics.Mirror, a *adviser.Advice) {
	k := s.Tracker(m)
	most, longest := LongestBite(m, !s.TurnedHere(m)), 0.0
	for _, mv := range a.Moves {
		longest = math.Max(longest, math.Abs(mv.Turns))
	}
	if longest <= most || k.Foretold(a.Moves) {
		return
	}
	at := k.Spot().At
	moves := make([]adviser.Move, len(a.Moves))
	for i, mv := range a.Moves {
		mv.Turns = adviser.OnGrid(mv.Turns * most / longest)
		at = at.Add(k.PerTurn(mv.Screw).At.Scale(mv.Turns))
		if mv.Stop != nil {
			mv.Stop = &optics.Stop{At: at, As: optics.StopPoint}
		}
		moves[i] = mv
	}
	a.Moves, a.Then, a.After = moves, nil, at
}

// TurnedHere reports whether a screw of mirror m was turned in this session.
func (s Work) TurnedHere(m optics.Mirror) bool {
	for i := range s.Tel.Cell(m).Screws {
		if s.Tracker(m).Travel(i) != 0 {
			return true
		}
	}
	return false
}

func (s Work) toldMoves(face optics.Face, ms []adviser.Move) []event.ToldMove {
	var out []event.ToldMove
	for _, m := range ms {
		label := s.Tel.Cell(m.Mirror).Labels[m.Screw]
		t := event.ToldMove{Turn: optics.Turn{Mirror: m.Mirror, Turns: m.Turns}}
		if m.Lock {
			t.Lock = label
		} else {
			t.Screw = label
		}
		if m.Stop != nil {
			seen := s.Tel.ToSeen(face, m.Stop.At)
			t.Stop = &event.ToldStop{Right: words.Round(seen.Right, 1), Up: words.Round(seen.Up, 1), As: m.Stop.As}
		}
		out = append(out, t)
	}
	return out
}

// why says in a sentence what the move rests on.
func (s Work) why(m optics.Mirror, a adviser.Advice) string {
	if len(a.Moves) == 0 {
		return ""
	}
	k := s.Tracker(m)
	turned := a.Moves[len(a.Moves)-1:]
	if n := len(a.Moves); n > 1 && s.pairs(m) {
		turned = a.Moves[n-2:]
	}
	mv := turned[len(turned)-1]
	label := s.Tel.Cell(m).Labels[mv.Screw]
	way := k.Likely(turned)
	toward := words.HourWords(s.Tel.TubeToDial(m.SpotFace(), way))
	var text string
	switch {
	case !a.Learning:
		text = fmt.Sprintf("%s moves the spot toward %s, about %.0f mm a turn", label, toward, way.Len()/math.Abs(mv.Turns))
	case !k.Turned(mv.Screw):
		text = fmt.Sprintf("a first turn of %s, to learn what it does; the guess is toward %s", label, toward)
	default:
		text = fmt.Sprintf("what %s does is still a guess: toward %s", label, toward)
	}
	return text
}

// Net travel in one session beyond which a person is asked first. Common
// practice.
const (
	askSecondaryTurns = 0.5
	askPrimaryTurns   = 1.0
)

// limitAsk returns the question that a screw near its limit calls for, or "", and
// the same in brief; the amounts are those that are told.
func (s Work) limitAsk(k adviser.Tracker, ms []adviser.Move, told []event.ToldMove) (ask, brief string) {
	if len(ms) > 0 {
		if words := s.inVain(ms[0].Mirror); words != "" {
			return words, "No nearer. Better stop safely and hold it back."
		}
		if ask, brief := s.idleAsk(ms[0].Mirror); ask != "" {
			return ask, brief
		}
	}
	for i, m := range ms {
		limit, what, brief := askPrimaryTurns, "Check that it still presses on its spring and is not at its end.", "Is it still on its spring, and not at its end?"
		if m.Mirror == optics.Secondary {
			limit, what, brief = askSecondaryTurns, "First laser OFF and OUT. If the secondary is not round and central, type: stop safely.", "First laser OFF, OUT. Secondary not round: stop safely"
		}
		net := k.Travel(m.Screw)
		if !m.Lock && limitsPassed(net+m.Turns, limit) > limitsPassed(net, limit) {
			return fmt.Sprintf("This takes %s to %s from its start. %s", s.Tel.Cell(m.Mirror).Labels[m.Screw], words.SpokenAmount(net+told[i].Turns), what), brief
		}
	}
	return "", ""
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
