package mirrors

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"spotward/optics"
	"spotward/optics/adviser"
)

// turnLegs turns screws of the primary, of which the stuck one moves nothing, and reads the
// spot with an error of sigma. It returns where the spot is.
func turnLegs(s *Work, at optics.Tube, sigma float64, stuck int, legs ...adviser.Move) optics.Tube {
	s.Since.last = lastTurn{optics.Primary, s.Primary.Tracker, legs}
	for _, mv := range legs {
		if mv.Screw != stuck {
			at = at.Add(s.Primary.Tracker.Likely([]adviser.Move{mv}))
		}
	}
	s.Primary.Tracker = s.Primary.Tracker.Turn(legs, adviser.ByAmount, adviser.ByAmount)
	z := optics.Belief{At: at, Cov: optics.Round(sigma)}
	s.noteIdle(optics.Primary, z)
	s.Since.looked = looked{s.Since.last, z}
	s.Primary.Tracker, _ = s.Primary.Tracker.Look(z)
	return at
}

func leg(screw int, turns float64) adviser.Move {
	return adviser.Move{Mirror: optics.Primary, Screw: screw, Turns: turns}
}

func TestAScrewThatMovesNothingBesideOthersThatDo(t *testing.T) {
	for _, tt := range []struct {
		name  string
		sigma float64
		stuck int
		then  func(*Work)
		found bool
	}{
		{"stuck", 0.7, 1, func(*Work) {}, true},
		{"it turns", 0.7, -1, func(*Work) {}, false},
		{"read too coarsely to tell", 4, 1, func(*Work) {}, false},
		{"the locks nipped since", 0.7, 1, func(s *Work) { s.Turn([]optics.Turn{{Mirror: optics.Primary, Lock: "B", Turns: 0.06}}, nil) }, true},
		{"its lock eased since", 0.7, 1, func(s *Work) { s.Turn([]optics.Turn{{Mirror: optics.Primary, Lock: "B", Turns: -0.06}}, nil) }, false},
	} {
		s := primaryAt(t, 9, 3)
		s.Since.read = optics.Belief{At: optics.Tube{X: 9, Y: 3}, Cov: optics.Round(tt.sigma)}
		at := turnLegs(&s, optics.Tube{X: 9, Y: 3}, tt.sigma, tt.stuck, leg(1, 0.5), leg(2, -0.25))
		turnLegs(&s, at, tt.sigma, tt.stuck, leg(1, 0.375), leg(2, 0.1))
		ask, brief := s.idleAsk(optics.Primary)
		if tt.found {
			assert.Contains(t, ask, "B was turned by 7 eighths of a turn. No look", tt.name)
			assert.Contains(t, brief, "stuck B", tt.name)
		} else if tt.name != "its lock eased since" {
			assert.Empty(t, ask, tt.name)
		}
		tt.then(&s)
		said := s.withoutIdle(optics.Primary, s.Primary.Tracker).Said(1)
		assert.Equal(t, tt.found, said == adviser.End, tt.name)
		assert.Empty(t, s.Primary.Tracker.Said(1), "what is believed is as it was")
	}
}
