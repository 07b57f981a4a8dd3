package optics

// StopKind says how a stop cue is to be read while the spot moves.
type StopKind string

// StopBearing: stop when the spot stands in that direction from the goal.
// StopClosest: stop where it comes nearest to the goal. StopPoint: stop at
// that point.
const (
	StopBearing StopKind = "bearing"
	StopClosest StopKind = "closest"
	StopPoint   StopKind = "point"
)

// Stop is where the spot will stand when a move has done its part.
type Stop struct {
	At Tube
	As StopKind
}

// Goal is where a spot is wanted.
type Goal struct {
	At       Tube
	InsideMM float64 // how near to At counts
}
