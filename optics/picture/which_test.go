package picture

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"spotward/optics"
)

// Of two pictures with spots that fit, the one that keeps its place is on the glass.
func TestTheSpotThatKeepsItsPlaceIsOnTheGlass(t *testing.T) {
	spots := func(places ...optics.Dial) Sight {
		s := Sight{Face: optics.FacePrimary, Missing: Which}
		for i, at := range places {
			s.fits = append(s.fits, fit{at: at, along: 0.1, across: 0.1, mark: Disc{Point{float64(i), 0}, 5}})
		}
		return s
	}
	at := func(right, up float64) optics.Dial { return optics.Dial{Right: right, Up: up} }
	for name, c := range map[string]struct {
		first, second Sight
		found         bool
	}{
		"the other one moved":        {spots(at(4, 9), at(-20, 3)), spots(at(12, 3), at(4.1, 8.9)), true},
		"the phone was not moved":    {spots(at(4, 9), at(-20, 3)), spots(at(-20.1, 3), at(4.1, 8.9)), false},
		"hardly moved":               {spots(at(4, 9), at(-20, 3)), spots(at(-15.4, 3), at(4.1, 8.9)), false},
		"both moved":                 {spots(at(4, 9), at(-20, 3)), spots(at(12, 3), at(-4, 22)), false},
		"one spot in the second":     {spots(at(4, 9), at(-20, 3)), spots(at(4, 9)), false},
		"one spot in the first":      {spots(at(4, 9)), spots(at(12, 3), at(4, 9)), false},
		"rolled by three degrees":    {spots(at(0, 10), at(-20, 3)), spots(at(0.5, 10), at(12, 3)), true},
		"two stay, and a third goes": {spots(at(4, 9), at(-20, 3), at(9, 9)), spots(at(4, 9), at(-20, 3), at(30, 9)), false},
	} {
		t.Run(name, func(t *testing.T) {
			got := c.first.With(c.second)
			assert.Equal(t, c.found, got.Found())
			if c.found {
				assert.Less(t, fit{at: got.At}.far(c.first.fits[0]), 0.6, "mm")
				assert.Positive(t, got.AlongMM)
			}
		})
	}
	found := Sight{Face: optics.FacePrimary, At: at(1, 2)}
	assert.Equal(t, found, spots(at(4, 9), at(-20, 3)).With(found), "a picture that was clear stands")
}
