package adviser

import (
	"spotward/optics"
)

// Move is one screw or lock turned by an amount.
type Move struct {
	Mirror optics.Mirror
	Screw  int          // index into the cell's labels
	Lock   bool         // the lock beside that screw, not the screw itself
	Turns  float64      // signed, clockwise positive facing the head
	Stop   *optics.Stop // nil: no cue
}

// Group says how the moves of an advice belong together.
type Group string

// GroupOne: a single screw. GroupPair: ease one, take up another. GroupSet: a
// balanced set over all screws. GroupLegs: one screw after another, each with
// its own cue.
const (
	GroupOne  Group = "one"
	GroupPair Group = "pair"
	GroupSet  Group = "set"
	GroupLegs Group = "legs"
)

// Advice is the next move on one mirror.
type Advice struct {
	Group Group
	Moves []Move // to be made now, in order
	Then  []Move // foretold, not yet asked
	// Learning: chosen for what it teaches as much as for where it leads.
	Learning bool
	// Touch: the way is a guess, so the move begins with a touch, until the spot
	// sets off.
	Touch bool
	// Trust, 0 to 1: how likely the spot comes nearer by this move.
	Trust float64
	After optics.Tube // where the spot is expected once Moves are made
}
