package header

// Stand is where somebody stands at a step.
type Stand string

// The places to stand. A stage that leads all round the scope has steps at
// several of them.
const (
	StandBeside   Stand = "beside"
	StandSky      Stand = "sky"
	StandBehind   Stand = "behind"
	StandAllRound Stand = "all_round"
)

// Tool is what is in the hand at a step.
type Tool string

// The tools. The same key can be asked for in two ways: by its short arm, or for
// after the walk round the scope.
const (
	ToolNone            Tool = "none"
	ToolPen             Tool = "pen"
	ToolHolder          Tool = "holder"
	ToolSecondary       Tool = "secondary"
	ToolPrimary         Tool = "primary"
	ToolPrimaryNext     Tool = "primary_next"
	ToolPrimaryAndLocks Tool = "primary_and_locks"
	ToolLocks           Tool = "locks"
	ToolLocksShort      Tool = "locks_short"
)

// Attitude is how the tube lies at a step.
type Attitude string

// The attitudes. TubeAsItIs is whichever it has, until the locks are snug.
const (
	TubeLevel  Attitude = "level"
	TubeNoseUp Attitude = "nose_up"
	TubeSwung  Attitude = "swung"
	TubeAsItIs Attitude = "as_it_is"
	TubeAtStar Attitude = "at_star"
)

// Beam says whether the laser is on at a step.
type Beam string

// The states of the beam. BeamEither is off, or on behind the card.
const (
	BeamOff    Beam = "off"
	BeamOn     Beam = "on"
	BeamEither Beam = "either"
)

// Card is how much of the open end the card covers at a step.
type Card string

// The covers.
const (
	CardNone  Card = "none"
	CardHalf  Card = "half" // the half where red shows
	CardWhole Card = "whole"
)

// Seat is what becomes of the laser in the focuser at a step.
type Seat string

// The seats.
const (
	SeatIn       Seat = ""          // it is in, and stays
	SeatEmpty    Seat = "empty"     // it is not in yet
	SeatLeaves   Seat = "leaves"    // it goes off, then out
	SeatEyepiece Seat = "eyepiece"  // it is out, an eyepiece is in its place
	SeatLens     Seat = "lens"      // it has a lens on it
	SeatLensNext Seat = "lens_next" // it goes off, and on again with a lens on it
)

// Header is what is said first at every step: where to stand, the tool, how the
// tube lies, and the laser with the card over the open end. Its words are in
// HeaderWords.
type Header struct {
	Stand Stand
	Tool  Tool
	Tube  Attitude
	Beam  Beam
	Card  Card
	Seat  Seat
}

// Turning returns the tool with which screws and locks of the primary are turned,
// where a step has t: a move can be told of what its stage is not about.
func (t Tool) Turning(screws, locks bool) Tool {
	switch {
	case screws && locks:
		return ToolPrimaryAndLocks
	case locks && t != ToolLocksShort:
		return ToolLocks
	case screws && t != ToolPrimaryNext && t != ToolPrimaryAndLocks:
		return ToolPrimary
	}
	return t
}
