package practice

import (
	"slices"
	"strings"

	"spotward/optics"
	"spotward/optics/virtual"
	"spotward/session"
	"spotward/session/answer"
	"spotward/session/event"
	"spotward/session/words"
)

// AsTold understands Enter on an empty line after a move was told: it was
// turned as told. Where somebody watches the spot it was turned until the cue,
// if the spot comes to it.
func (b *Bench) AsTold(s session.State, text string) (answer.Typed, bool) {
	told := s.Told()
	if strings.TrimSpace(text) != "" || told == nil || s.Ask().Want != session.WantReading {
		return answer.Typed{}, false
	}
	if ev, echo, ok := b.setOff(s); ok {
		return answer.Typed{Events: []event.Event{ev}, Echo: echo}, true
	}
	ev := event.Event{Kind: event.KindTurned, Turned: told.Turns(), Snug: told.Snug, Watched: told.Watch && b.cued(s)}
	echo := "turned, " + words.TurnedWords(ev.Turned)
	if ev.Watched {
		echo += ", and stopped by the spot"
	}
	return answer.Typed{Events: []event.Event{ev}, Echo: echo}, true
}

// cued reports whether every cue of what is told would come: the spot is to be
// seen, stays to be seen and comes nearer. Where it does not, the caller sees
// it go and leaves the turner to the amount.
func (b *Bench) cued(s session.State) bool {
	trial, cues := b.world.Clone(), 0
	for _, m := range inGoes(s.Told().Moves) {
		i, err := s.Index(m.Turn)
		if err != nil {
			return false
		}
		did := b.turnTold(trial, s, m, i)
		if did.Away || did.Lost {
			return false
		}
		if m.Stop != nil {
			cues++
		}
	}
	return cues > 0
}

// turnTold turns a told move until its cue, or by its amount where it has none.
func (b *Bench) turnTold(w *virtual.World, s session.State, m event.ToldMove, i int) virtual.Turned {
	if s.LastNip(m.Turn) {
		return w.SnugLock(i)
	}
	if m.Stop == nil || m.Lock != "" {
		return turnOn(w, m.Turn, i)
	}
	face, sense := m.Mirror.SpotFace(), 1
	if m.Turns < 0 {
		sense = -1
	}
	stop := optics.Stop{At: s.Tel.FromSeen(face, optics.Seen{Right: m.Stop.Right, Up: m.Stop.Up}), As: m.Stop.As}
	return w.WatchOn(face, m.Mirror, i, sense, stop, s.Ask().Goal.At)
}

// Make has the hands make true what an event says was turned. It returns what
// they really went for, an event for the journal each: made again, it goes as
// far, feels the same and does the same harm.
func (b *Bench) Make(s session.State, ev event.Event) []event.Event {
	told := s.Told()
	var moves []event.ToldMove
	switch {
	case ev.Kind == event.KindTurned && ev.Watched && told != nil:
		moves = told.Moves
	case ev.Kind == event.KindTurned && told != nil && slices.Equal(ev.Turned, told.Turns()):
		moves = uncued(told.Moves)
	case ev.Kind == event.KindTurned:
		moves = plain(ev.Turned)
	case told == nil:
	case ev.Kind == event.KindReading && (ev.Cued || ev.Watched):
		moves = told.Moves
	case ev.Kind == event.KindReading, ev.Kind == event.KindConfirm:
		moves = uncued(told.Moves)
	case ev.Kind == event.KindWent:
		moves = touches(s, ev)
	case ev.Kind == event.KindScrew && ev.Is == event.SaysOtherWay:
		moves = otherWay(told.Moves, ev.Screw)
	}
	var hands []event.Event
	trial := b.world.Clone()
	for _, m := range inGoes(moves) {
		i, err := s.Index(m.Turn)
		if err != nil {
			continue // the session will say so
		}
		did := b.turnTold(trial, s, m, i)
		hands = append(hands, handOf(s.Tel, did))
		if m.Lock != "" && m.Turns < 0 && did.Felt == virtual.AtEnd {
			// Eased, and it comes up hard: no hand goes on to the screw before it is
			// turned the right way.
			hands = append(hands, handOf(s.Tel, trial.TurnLockExactly(i, m.Turns-did.Turns)))
		}
	}
	return hands
}

// plain are turns by amount.
func plain(turns []optics.Turn) []event.ToldMove {
	moves := make([]event.ToldMove, len(turns))
	for i, t := range turns {
		moves[i].Turn = t
	}
	return moves
}

// otherWay are the told moves with that screw's the wrong way: the last one's
// where none is named.
func otherWay(told []event.ToldMove, screw string) []event.ToldMove {
	if screw == "" {
		screw = told[len(told)-1].Screw
	}
	moves := make([]event.ToldMove, len(told))
	for i, m := range told {
		moves[i].Turn = m.Turn
		if strings.EqualFold(m.Screw, screw) {
			moves[i].Turns = -m.Turns
		}
	}
	return moves
}

// handOf returns what hands did as an event for the journal.
func handOf(tel optics.Telescope, did virtual.Turned) event.Event {
	really := optics.Turn{Mirror: did.Mirror, Turns: did.Tried}
	label := tel.Cell(did.Mirror).Labels[did.Screw]
	if did.Lock {
		really.Lock = label
	} else {
		really.Screw = label
	}
	hand := event.Event{Kind: event.KindHand, Turned: []optics.Turn{really}}
	if did.Felt == virtual.Slipped {
		hand.Is = event.SaysSlipped // nothing of the screw itself would tell it again
	}
	return hand
}

func turnOn(w *virtual.World, t optics.Turn, i int) virtual.Turned {
	if t.Lock != "" {
		return w.TurnLock(i, t.Turns)
	}
	return w.Turn(t.Mirror, i, t.Turns)
}
