package event

import (
	"time"

	"spotward/optics"
)

// Known is what the shelf knew of a scope and its kit when a session began, from
// the sessions before it. It stands in the begin line, so that what is asked
// and what is not follows from the journal alone. Nothing of it is from
// practice. What is left out is not known.
type Known struct {
	Circle   *KnownCircle             `json:"circle,omitempty"`  // the laser turned in its holder, the last time
	Suspect  string                   `json:"suspect,omitempty"` // what is thought wrong with the kit, by its id
	Glow     string                   `json:"glow,omitempty"`    // whether this kit's glow round the hole shifts: shifts, stays
	Labels   map[optics.Mirror]string `json:"labels,omitempty"`  // how the letters stand, as it was answered
	Manner   Manner                   `json:"manner,omitempty"`  // how they know when to stop turning: watching, amount
	Locks    string                   `json:"locks,omitempty"`   // how the primary is held: sprung, push_pull
	Left     *KnownLook               `json:"left,omitempty"`    // how the scope was left the last time
	Found    *KnownLook               `json:"found,omitempty"`   // how it was found that time
	Swing    *KnownSwing              `json:"swing,omitempty"`   // the last one
	Sessions int                      `json:"sessions,omitempty"`
}

// KnownCircle is what the spot did while the laser was turned in its holder.
type KnownCircle struct {
	At       time.Time `json:"at"` // UTC
	RadiusMM float64   `json:"radius_mm"`
	SeatMM   float64   `json:"seat_mm,omitempty"` // how far off it came back; 0: not tried
}

// KnownPlace is a place on a mirror, mm in the frame of optics.Seen.
type KnownPlace struct {
	Right   float64 `json:"right"`
	Up      float64 `json:"up"`
	SigmaMM float64 `json:"sigma_mm,omitempty"`
}

// KnownLook is how both spots stood at the end or the start of a session.
type KnownLook struct {
	At             time.Time  `json:"at"` // UTC
	P              *KnownSpot `json:"p,omitempty"`
	T              *KnownSpot `json:"t,omitempty"`
	AxisErrorMM    float64    `json:"axis_error_mm,omitempty"`     // where it was claimed
	AxisErrorMaxMM float64    `json:"axis_error_max_mm,omitempty"` // the true one is within it in 95 of 100
}

// KnownSpot is where a spot was seen, or that it was not.
type KnownSpot struct {
	Saw Sight `json:"saw"`
	KnownPlace
}

// KnownSwing is what the last swing of the tube did to the return spot.
type KnownSwing struct {
	At      time.Time `json:"at"` // UTC
	MovedMM float64   `json:"moved_mm"`
}
