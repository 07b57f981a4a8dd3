package adviser

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"spotward/optics"
)

func TestWhatWasLearntAges(t *testing.T) {
	l := Learnt{PerTurn: []optics.Tube{{X: 30, Y: 40}}, Spread: []optics.Cov{optics.Round(3)}}
	fresh, old := l.Aged(0), l.Aged(4)
	assert.Equal(t, l.Spread, fresh.Spread)
	assert.InDelta(t, 3*3+4*(agedPart*50)*(agedPart*50), old.Spread[0].XX, 1e-9, "variances add year by year")
	assert.Equal(t, l.PerTurn, old.PerTurn)
	assert.Equal(t, optics.Round(3), l.Spread[0], "the old value stands")
}
