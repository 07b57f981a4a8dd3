package talk

import (
	"spotward/optics"
	"spotward/optics/adviser"
	"spotward/session"
	"spotward/session/words"
	"spotward/views/desk"
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
		if m.Stop == nil {
			continue
		}
		f := m.Mirror.SpotFace()
		at := s.Tel.ToDial(f, optics.Seen{Right: m.Stop.Right, Up: m.Stop.Up})
		if ask.Told.Watch {
			t.say("Watch the spot, and stop " + words.StopWords(f, at, m.Stop.As) + ".")
		} else {
			t.say("Then " + words.AimWords(f, at, m.Stop.As) + ".")
		}
	}
}

// call says what to call to somebody at the screw, for each move that is told.
func (t *talk) call() {
	told := t.work.Shown().Ask().Told
	if told == nil {
		t.say("No move is told just now.")
		return
	}
	for _, line := range desk.Calls(t.work.State(), *told) {
		t.say(line)
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
