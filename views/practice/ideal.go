package practice

import (
	"math"

	"spotward/optics"
	"spotward/session"
	"spotward/session/event"
	"spotward/session/lesson"
)

// Ideal returns what somebody would answer who reads every spot as it is and
// takes the ordinary way, with that verdict; the moves told before count as
// made.
func (b *Bench) Ideal(s session.State, verdict string) event.Event {
	ask := s.Ask()
	if verdict != "" && verdict != s.Verdict && s.VerdictTold() {
		return event.Event{Kind: event.KindChoice, Choice: verdict}
	}
	switch ask.Want {
	case session.WantConfirm:
		return event.Event{Kind: event.KindConfirm}
	case session.WantChoice:
		choice := ask.Options[0].ID
		for _, o := range ask.Options {
			if o.ID == verdict {
				choice = verdict
			}
		}
		return event.Event{Kind: event.KindChoice, Choice: choice}
	}
	v := b.LookFor(ask)
	ev := event.Event{Kind: event.KindReading, Face: v.Face}
	switch {
	case v.InHole && ask.Face == optics.FaceTarget:
		ev.Saw = event.SawHome
	case !v.Visible:
		ev.Saw, ev.Face, ev.All = event.SawGone, ask.Face, len(ask.Faces) > 1
	default:
		ev.Saw, ev.Right, ev.Up = event.SawPlace, v.Seen.Right, v.Seen.Up
		ev.Cov = &[3]float64{0.25, 0, 0.25}
	}
	return ev
}

// Possible returns how many moves would bring mirror m's spot to its goal for
// somebody who knew this telescope and turned no more at a time than one
// should: none, those of one screw or pair that lies in the right line, or of
// two. The secondary moves in pairs.
func (b *Bench) Possible(m optics.Mirror, g optics.Goal) int {
	truth := b.world.Truth()
	off, per := truth.Spots.T, truth.Primary.PerTurn
	if m == optics.Secondary {
		off, per = truth.Spots.P.Sub(truth.Ring), pairs(truth.Secondary.PerTurn)
	}
	off = off.Sub(g.At)
	if off.Len() <= g.InsideMM {
		return 0
	}
	least := math.MaxInt
	for i, v := range per {
		turns := math.Round(-16*off.Dot(v)/v.Dot(v)) / 16
		if off.Add(v.Scale(turns)).Len() <= g.InsideMM {
			least = min(least, lesson.Bites(m, turns, true))
		}
		for _, w := range per[:i] {
			one, two := solve(v, w, off.Scale(-1))
			least = min(least, lesson.Bites(m, one, true)+lesson.Bites(m, two, false))
		}
	}
	return least
}

// solve returns how many turns of v and of w come to a way; far more than there
// are where the two lie in one line.
func solve(v, w, way optics.Tube) (ofV, ofW float64) {
	det := v.X*w.Y - v.Y*w.X
	if math.Abs(det) < 1e-9 {
		return math.MaxInt16, math.MaxInt16
	}
	return (way.X*w.Y - way.Y*w.X) / det, (v.X*way.Y - v.Y*way.X) / det
}

// pairs returns what a turn of one screw with as much of another the other way
// does, for every two of them.
func pairs(per []optics.Tube) []optics.Tube {
	var out []optics.Tube
	for i := range per {
		for j := range i {
			out = append(out, per[i].Sub(per[j]))
		}
	}
	return out
}
