package talk

import (
	"spotward/optics"
	"spotward/optics/adviser"
	"spotward/session"
	"spotward/session/words"
)

// moves says what is to be turned, one after the other.
func (t *talk) moves(ask session.Ask) {
	s := t.work.State()
	if ask.Told.Ask != "" {
		t.say("First: " + full(ask.Told.Ask))
	}
	if ask.Told.Group == adviser.GroupPair {
		t.say("Two screws against each other.")
	}
	for i, m := range ask.Told.Moves {
		first := "Move: "
		if i > 0 {
			first = "Then: "
		}
		t.sayWhole(first + moveWords(m.Turn))
		t.screw(m.Turn)
		t.say("The key's handle goes " + words.KeyHandle(m.Turns) + ".")
		stop := ""
		if m.Stop != nil {
			f := m.Mirror.SpotFace()
			at := s.Tel.ToDial(f, optics.Seen{Right: m.Stop.Right, Up: m.Stop.Up})
			stop = words.StopWords(f, at, m.Stop.As)
			t.say("Or watch the spot, and stop " + stop + ".")
		}
		if s.Watching {
			t.say(words.CallWords(m.Turn, stop))
		}
	}
}

// moveWords says a turn: "primary, screw C. Tighten, clockwise, a quarter of a
// turn."
func moveWords(turn optics.Turn) string {
	what := "screw " + turn.Screw
	if turn.Lock != "" {
		what = "lock " + turn.Lock
	}
	sense := "Tighten, clockwise, "
	if turn.Turns < 0 {
		sense = "Ease, anticlockwise, "
	}
	return string(turn.Mirror) + ", " + what + ". " + sense + words.SpokenAmount(turn.Turns) + "."
}
