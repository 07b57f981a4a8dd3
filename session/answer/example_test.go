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
	// "perhaps": where is the spot? say 4:30 2r, in 4, dead, cant see, on 4, out 4, wall 4, not there, same, =, C -3/16 B +3/16, other way, wrong A, stuck C, free C or not done
}
