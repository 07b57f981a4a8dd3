package practice

import (
	"math"
	"slices"

	"spotward/optics/virtual"
	"spotward/session"
	"spotward/session/event"
)

// Deeds returns what was done, since Forget, that would have done harm and that
// nobody had told.
func (b *Bench) Deeds() []virtual.Deed { return slices.Clone(b.deeds) }

// asTold is how far, as a part of a told turn, hands may go and still have done
// as they were told: hands err.
const asTold = 1.6

// blame keeps what an event brought that would have done harm, of all deeds
// those from the had-th on; what a hand did as it was told is nobody's.
func (b *Bench) blame(before session.State, ev event.Event, had int) {
	done := b.world.Deeds()[had:]
	if ev.Kind == event.KindHand && told(before, ev) {
		return
	}
	b.deeds = append(b.deeds, done...)
}

// told reports whether a hand turned what it was told, that way, and no farther.
func told(s session.State, ev event.Event) bool {
	if s.Told() == nil {
		return false
	}
	for _, t := range ev.Turned {
		if !slices.ContainsFunc(s.Told().Moves, func(m event.ToldMove) bool {
			return m.Mirror == t.Mirror && m.Screw == t.Screw && m.Lock == t.Lock && m.Turns*t.Turns > 0 &&
				(m.Stop != nil || math.Abs(t.Turns) <= asTold*math.Abs(m.Turns))
		}) {
			return false
		}
	}
	return true
}
