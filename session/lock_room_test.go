package session_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"spotward/optics"
	"spotward/session"
	"spotward/session/scope"
)

// toHome plays on to the primary's work with the locks eased, the return spot
// always read at the same place.
func toHome(t *testing.T, reading string) player {
	p := play(t, scope.Builtin()).line("routine", "none", "still", "dead", reading, "primary")
	for p.State().Stage().ID != session.StageHome {
		p.line(map[session.Want]string{session.WantConfirm: "yes", session.WantReading: reading}[p.State().Ask().Want])
	}
	return p
}

// No told move draws the mirror back farther than its lock was eased, but the
// lock is eased before it in the same breath, as long as that is no more than
// half a turn in all: beyond it the screw will say that it stops, and whether the
// lock wobbles is asked before it is eased by more.
func TestNoScrewDrivesTheMirrorOntoItsLock(t *testing.T) {
	first := false
	for _, reading := range []string{"1 12", "3 12", "5 12", "7 12", "9 12", "11 12"} {
		p := toHome(t, reading)
		eased, drawn := map[string]float64{"A": 0.25, "B": 0.25, "C": 0.25}, map[string]float64{}
		for n := 0; n < 6 && p.State().Told() != nil && p.State().Stage().ID == session.StageHome; n++ {
			for _, m := range p.State().Told().Moves {
				if m.Lock != "" {
					first = true
					assert.Negative(t, m.Turns)
					eased[m.Lock] -= m.Turns
					assert.LessOrEqual(t, eased[m.Lock], 0.75+1e-9)
					if eased[m.Lock] > 0.5+1e-9 {
						assert.Contains(t, p.State().Told().Ask, "wobble", "beyond half a turn it is asked first")
					}
					continue
				}
				require.Equal(t, optics.Primary, m.Mirror)
				drawn[m.Screw] += m.Turns // Dunlin's screws draw back clockwise
				if eased[m.Screw] < 0.5 { // as far as a lock may be eased
					assert.LessOrEqual(t, drawn[m.Screw], eased[m.Screw]+0.02, "%s after %d moves", m.Screw, n)
				}
			}
			p.line(reading)
		}
	}
	assert.True(t, first, "a lock was eased before its screw somewhere: else this shows nothing")
}

func TestTheLastNipIsUntilItIsSnug(t *testing.T) {
	p := toHome(t, "2 11")
	for p.State().Stage().ID != session.StageRetighten {
		p.line("home")
	}
	last := 0
	for p.State().Stage().ID == session.StageRetighten {
		s := p.State()
		if told := s.Told(); told != nil && told.Moves[0].Lock != "" && s.LastNip(told.Moves[0].Turn) {
			last++
			assert.Contains(t, told.Why, "two fingers")
			assert.False(t, s.LastNip(optics.Turn{Mirror: optics.Primary, Lock: "A", Turns: 1}), "a whole turn is no nip")
		}
		p.line("home")
	}
	assert.Equal(t, 1, last)
}
