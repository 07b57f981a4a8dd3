package mirrors

import "spotward/optics"

// Classes of a laser that are no number on its label.
const (
	ClassOver = "over" // more than class 3R
	ClassNone = "none" // no label
)

// Laser is what is known of the laser and its holder.
type Laser struct {
	On       bool
	Dead     bool
	Weak     bool    // dim or flickering: dim is not home
	Class    string  // as on its label
	SeatMM   float64 // how far off it came back when it was put back
	CircleMM float64 // radius on the primary when it is turned; < 0: not told

	Looks  []optics.LaserLook // with it turned in its holder
	Fitted bool               // a conclusion was drawn from them
	Aims   optics.LaserError  // how it is out, once measured
	Fault  optics.LaserFault  // what is wrong with it or its holder, once measured
}
