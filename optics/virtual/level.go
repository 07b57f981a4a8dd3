package virtual

import "fmt"

// Level says how hard the telescope, and whoever turns its screws, make it.
type Level string

// The levels. Easy: everything tight, a true laser, careful trained hands.
// Usual: a telescope that has been carried, with a fair laser and trained
// hands. Hard: a poor laser, screws without labels or with the labels the
// other way round, a sticky screw, something loose, and a first-timer's hands.
const (
	Easy  Level = "easy"
	Usual Level = "usual"
	Hard  Level = "hard"
)

// ParseLevel understands a level's name.
func ParseLevel(s string) (Level, error) {
	switch l := Level(s); l {
	case Easy, Usual, Hard:
		return l, nil
	}
	return "", fmt.Errorf("unknown level %q: easy, usual or hard", s)
}

// Setup is all that can be set on the practice telescope.
type Setup struct {
	Faults Faults `json:"faults"`
	Hands  Hands  `json:"hands"`
	Sight  Keen   `json:"sight"`
}

// Hands says how well the hands do what they were asked. The zero Hands do
// exactly that.
type Hands struct {
	Part       float64 `json:"part,omitempty"`        // 1σ, as part of the amount
	Turns      float64 `json:"turns,omitempty"`       // 1σ, turns, whatever the amount
	OtherWay   float64 `json:"other_way,omitempty"`   // probability of turning the other way
	WrongScrew float64 `json:"wrong_screw,omitempty"` // probability of turning the next screw
	Slips      float64 `json:"slips,omitempty"`       // probability that the key slips half way
}

// Keen says how well the eyes read a spot. The zero Keen reads it as it is, to
// the half-hour and the millimetre.
type Keen struct {
	Deg   float64 `json:"deg,omitempty"`   // 1σ of the direction, degrees
	Part  float64 `json:"part,omitempty"`  // 1σ of the distance, as part of it
	MM    float64 `json:"mm,omitempty"`    // 1σ of the distance, mm, whatever it is
	Short float64 `json:"short,omitempty"` // part by which distances are read too short
	Swaps float64 `json:"swaps,omitempty"` // probability of swapping left for right
	// Vague: inside the ring it is "inside, toward 4", and no distance.
	Vague bool `json:"vague,omitempty"`
}

// The hands and eyes of the trained are those of benches on which advice is
// usually tried; those of first-timers are trainers' judgement: eighths ± 25 %,
// one turn in 20 the other way, the clock 9 to 12° off, distances 22 % off and
// too short, one reading in 18 swapped.
var (
	carefulHands   = Hands{Part: 0.04, Turns: 0.005}
	trainedHands   = Hands{Part: 0.08, Turns: 0.01}
	firstTimeHands = Hands{Part: 0.25, Turns: 0.01, OtherWay: 1. / 20, WrongScrew: 1. / 60, Slips: 1. / 60}

	carefulEyes   = Keen{Deg: 4, Part: 0.06, MM: 0.3}
	trainedEyes   = Keen{Deg: 5, Part: 0.1, MM: 0.5}
	firstTimeEyes = Keen{Deg: 10, Part: 0.22, MM: 0.5, Short: 0.08, Swaps: 1. / 18, Vague: true}
)
