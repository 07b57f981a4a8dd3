package practice

import (
	"math"

	"spotward/optics"
	"spotward/session"
	"spotward/session/event"
	"spotward/session/words"
)

// inGoes parts moves into their goes, two screws against each other by turns. A
// cue ends the last go of its screw.
func inGoes(moves []event.ToldMove) []event.ToldMove {
	var out []event.ToldMove
	for i := 0; i < len(moves); i++ {
		together := moves[i : i+1]
		if i+1 < len(moves) && moves[i].Goes > 1 && moves[i+1].Goes == moves[i].Goes && moves[i].Turns*moves[i+1].Turns < 0 {
			together = moves[i : i+2]
			i++
		}
		n := max(1, together[0].Goes)
		for part := range n {
			for _, m := range together {
				m.Turns /= float64(n)
				if part < n-1 {
					m.Stop = nil
				}
				out = append(out, m)
			}
		}
	}
	return out
}

// uncued are moves by amount, in their goes.
func uncued(moves []event.ToldMove) []event.ToldMove {
	out := append([]event.ToldMove(nil), moves...)
	for i := range out {
		out[i].Stop = nil
	}
	return out
}

// setOff has the hands begin a watched move with a touch, where it is told to,
// and stop where the spot sets off another way than it should.
func (b *Bench) setOff(s session.State) (ev event.Event, echo string, other bool) {
	told := s.Told()
	if !told.Watch {
		return ev, "", false
	}
	face := s.Ask().Face
	for _, m := range told.Moves {
		if !m.Touch || m.Toward == nil {
			continue
		}
		ev = event.Event{Kind: event.KindWent, Mirror: m.Mirror, Screw: m.Screw}
		trial := b.world.Clone()
		from := trial.Sight(face)
		for _, t := range touches(s, ev) {
			if i, err := s.Index(t.Turn); err == nil {
				turnOn(trial, t.Turn, i)
			}
		}
		to := trial.Sight(face)
		right, up := to.Seen.Right-from.Seen.Right, to.Seen.Up-from.Seen.Up
		if !from.Visible || !to.Visible || right*m.Toward.Right+up*m.Toward.Up > math.Hypot(right, up)*math.Sqrt2/2 {
			return ev, "", false
		}
		ev.Right, ev.Up = right, up
		way := s.Tel.ToDial(face, optics.Seen{Right: right, Up: up})
		return ev, "a touch of " + m.Screw + ", and stopped: it set off toward " + words.HourWords(way), true
	}
	return ev, "", false
}

// touches are the turns after which it is said which way the spot went.
func touches(s session.State, ev event.Event) []event.ToldMove {
	turned, err := s.Touched(ev)
	if err != nil {
		return nil
	}
	moves := make([]event.ToldMove, len(turned))
	for i, t := range turned {
		moves[i].Turn = optics.Turn{Mirror: t.Mirror, Screw: s.Tel.Cell(t.Mirror).Labels[t.Screw], Turns: t.Turns}
	}
	return moves
}
