package answer_test

import (
	"fmt"

	"spotward/session"
	"spotward/session/answer"
	"spotward/session/event"
	"spotward/session/scope"
)

// A line is read against what is asked, and said back before it counts.
func ExampleLine() {
	sc := scope.Builtin()
	s, _ := session.Start(event.Event{ID: "x", Scope: &sc}, nil)
	for _, line := range []string{"just a check", "none", "still", "4:30 12", "perhaps"} {
		typed, err := answer.Line(s.State(), line)
		if err != nil {
			fmt.Println(err)
			continue
		}
		fmt.Println(typed.Echo)
		_ = s.Do(typed.Events...)
	}
	// Output:
	// a routine look
	// no red on the card
	// no wider than the spot itself
	// half past 4, 12 mm from the ring's centre
	// "perhaps": not understood; say 4:30 2r, in 4, dead, cant see, A +1/8, stuck A or not done
}
