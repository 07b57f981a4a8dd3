package reading_test

import (
	"fmt"

	"spotward/optics"
	"spotward/session/reading"
)

func ExampleParse() {
	c := reading.Context{Tel: optics.Telescope{ApertureMM: 200, FocalLengthMM: 1200, RingInnerMM: 4.5, RingOuterMM: 8}, Face: optics.FacePrimary}
	for _, typed := range []string{"4:30 12", "in 4", "half 4 12"} {
		said, err := reading.Parse(typed, c)
		if err != nil {
			fmt.Println(err)
			continue
		}
		fmt.Println(said.Echo())
	}
	// Output:
	// half past 4, 12 mm from the ring's centre
	// inside the ring, toward 4 o'clock
	// "half 4": half past 3 or half past 4? say 3:30 12 or 4:30 12
}
