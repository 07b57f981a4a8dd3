package mirrors

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"

	"spotward/optics"
	"spotward/optics/adviser"
	"spotward/session/event"
)

// What is told in goes is an amount that a hand can make, in all and each go, and
// hardly another than was advised.
func TestGoesAreAmountsThatAHandMakes(t *testing.T) {
	for m, most := range map[optics.Mirror]float64{optics.Primary: 0.5, optics.Secondary: 0.125} {
		for n := 1; n <= 128; n++ {
			turns := -adviser.OnGrid(float64(n) / 64)
			moves := []event.ToldMove{{Turn: optics.Turn{Mirror: m, Screw: "A", Turns: turns}}}
			goes(m, moves)
			told, part := moves[0].Turns, -moves[0].Turns/float64(max(1, moves[0].Goes))
			assert.Equal(t, adviser.OnGrid(told), told, "%s %v", m, turns)
			assert.Equal(t, adviser.OnGrid(part), part, "%s %v a go", m, turns)
			assert.LessOrEqual(t, part, most, "%s %v", m, turns)
			assert.LessOrEqual(t, math.Abs(told/turns-1), 0.15, "%s %v", m, turns)
		}
	}
}
