package adviser_test

import (
	"fmt"

	"spotward/optics"
	"spotward/optics/adviser"
)

// A spot 20 mm off, and screws of which the scope's file says all there is to
// say.
func ExampleAdvise() {
	labels := []string{"A", "B", "C"}
	scope := optics.Telescope{
		ApertureMM: 254, FocalLengthMM: 1194, FromPrimaryMM: 967, HoleFromAxisMM: 247,
		Primary: optics.Cell{Screws: 3, CircleMM: 90, LeadMM: 0.8, GainKnown: optics.Given, Kind: optics.Sprung, ClockwisePulls: true,
			SenseKnown: optics.Given, Labels: labels, LabelsClockwise: true, PlacesKnown: optics.Given},
	}
	tracker := adviser.NewTracker(scope, optics.Primary, nil)
	tracker, _ = tracker.Look(optics.Belief{At: optics.Tube{X: 12}, Cov: optics.Round(1)})
	advice, ok := adviser.Advise(tracker, optics.Goal{InsideMM: 1}, adviser.Options{})
	fmt.Println(ok, len(advice.Moves) > 0)
	for _, m := range advice.Moves {
		fmt.Printf("%s %+.1f turns\n", labels[m.Screw], m.Turns)
	}
	// Output:
	// true true
	// A -0.7 turns
}
