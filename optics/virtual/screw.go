package virtual

import "math"

// Felt is what the hand feels while it turns a screw. The zero Felt is nothing
// out of the ordinary.
type Felt string

// What a hand feels. Free: it has turned for a while without holding anything.
// Stuck: it will not go, or stops going. AtEnd: it meets the end
// of its thread. Sticky: it goes in jerks, or stiffly. Binds: the centre bolt is
// taut, nothing gives. Slipped: the key came out of the head half way.
// Stripped: it turns and turns.
const (
	Free     Felt = "free"
	Stuck    Felt = "stuck"
	AtEnd    Felt = "end"
	Sticky   Felt = "sticky"
	Binds    Felt = "binds"
	Slipped  Felt = "slipped"
	Stripped Felt = "stripped"
)

// stickTurns is how far a grabbing screw is turned before the mirror follows
// with a jump.
const stickTurns = 0.1

// screw is one adjusting screw. Positions are in turns, clockwise positive, 0
// where the mirror would stand square.
type screw struct {
	hand float64 // where it has been turned to
	grip float64 // how far the mirror has followed
	// from and to are the ends of the thread.
	from, to float64
	slackAt  float64 // eased beyond this, the spring no longer reaches the plate
	loose    float64 // turns it stands off the plate, for a screw left unsnugged
	play     float64 // turns lost on a reversal
	ill      Ailment
}

// turn turns the screw and returns by how much it really went.
func (s *screw) turn(by float64) (did float64, felt Felt) {
	if s.ill == Seized {
		return 0, Stuck
	}
	to := math.Max(s.from, math.Min(s.to, s.hand+by))
	if math.Abs(to-s.hand-by) > 1e-9 {
		felt = AtEnd
	}
	did = to - s.hand
	s.hand = to
	if s.ill == Worn {
		return did, Stripped
	}
	switch {
	case s.ill != Grabbing:
		s.follow(math.Max(s.hand-s.play, math.Min(s.hand, s.grip)))
	case math.Abs(s.hand-s.grip) >= stickTurns:
		s.follow(s.hand)
	}
	if s.ill == Grabbing && felt == "" {
		felt = Sticky
	}
	return did, felt
}

// follow takes the grip along; what the screw stood off its plate goes first.
func (s *screw) follow(to float64) {
	s.loose -= math.Max(0, math.Min(s.loose, to-s.grip))
	s.grip = to
}

// lost returns how much of a clockwise turn goes before the mirror follows.
func (s *screw) lost() float64 { return s.play - (s.hand - s.grip) }

// knock frees what a grabbing screw holds back.
func (s *screw) knock() {
	if s.ill == Grabbing {
		s.follow(s.hand)
	}
}

// reach returns how far the plate has come at this screw, in turns: it stays
// where its spring ends, and it does not know that a loose screw has been
// eased.
func (s *screw) reach() float64 { return math.Max(s.slackAt, s.grip+s.loose) }
