package optics_test

import (
	"fmt"

	"spotward/optics"
)

// A secondary tilted toward the focuser moves the spot on the primary twice as
// far as the same tilt across.
func ExampleTelescope_Trace() {
	scope := optics.Telescope{
		ApertureMM: 254, FocalLengthMM: 1194, FromPrimaryMM: 967, HoleFromAxisMM: 247,
		MinorAxisMM: 63, InnerRadiusMM: 142, SkyEndMM: 1300,
	}
	for _, tilt := range []optics.Tube{{X: 0.005}, {Y: 0.005}} {
		spots, err := scope.Trace(optics.Pose{Secondary: optics.Tilt{Grad: tilt}})
		if err != nil {
			fmt.Println(err)
			return
		}
		fmt.Printf("%.1f mm\n", spots.P.Len())
	}
	// Output:
	// 9.7 mm
	// 4.8 mm
}
