package mirrors

import (
	"spotward/optics"
	"spotward/session/event"
)

// Sightings are the moments that a record keeps.
type Sightings struct {
	Found    Sighting
	BeforeSw Sighting
	Left     Sighting
}

// Spot is what is known of one spot: where it was last read and how.
type Spot struct {
	Known bool // read since it could last have moved unseen
	Saw   event.Sight
	At    optics.Belief // the reading, in the tube's frame of its face
	Gone  bool          // looked for and not on its face
	Look  int           // the number of the look that read it
	twice bool          // read twice where it stands
	Glow  event.Glow    // in the hole

	Picture *event.Picture // it was measured on; nil: it was read by eye
}

// Sighting is both spots and the axis error at one moment: found, left,
// before and after the swing.
type Sighting struct {
	P, T     Spot
	ErrKnown bool
	ErrMM    float64 // axis error in the focal plane: as likely as not within it
	ErrMaxMM float64 // the true one is within it in 95 of 100
	Claim    optics.Claim
	Centred  bool // the spot on the primary was at its goal
	Home     bool // and the return spot at its own
	Turned   int  // how often screws had been turned by then
}
