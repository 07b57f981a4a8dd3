package paper

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"spotward/optics"
	"spotward/session"
)

// A session of many looks keeps to one sheet: its first and its last ones.
func TestManyLooksAreCut(t *testing.T) {
	for _, n := range []int{0, 1, mostLooks, mostLooks + 1, 100} {
		var w way
		for i := range n {
			w.looks = append(w.looks, look{N: i + 1})
		}
		var p page
		p.way(w)
		assert.Len(t, p.Looks, min(n, mostLooks))
		if n <= mostLooks {
			continue
		}
		assert.Equal(t, firstLooks, p.Looks[firstLooks-1].N)
		assert.Equal(t, n-mostLooks, p.Looks[firstLooks].After)
		assert.Equal(t, firstLooks+n-mostLooks+1, p.Looks[firstLooks].N)
		assert.Equal(t, n, p.Looks[mostLooks-1].N)
		assert.Zero(t, w.looks[firstLooks].After)
	}
}

func TestTurnsInFewWords(t *testing.T) {
	screw := func(m optics.Mirror, name string, turns float64) session.Turn {
		return session.Turn{Mirror: m, Screw: name, Turns: turns}
	}
	lock := func(name string, turns float64) session.Turn {
		return session.Turn{Mirror: optics.Primary, Lock: name, Turns: turns}
	}
	for want, turns := range map[string][]session.Turn{
		"":                         nil,
		"primary: B tighten 1/8":   {screw(optics.Primary, "B", 0.125)},
		"primary: lock A ease 1/4": {lock("A", -0.25)},
		"primary: A B C tighten 1": {screw(optics.Primary, "A", 1), screw(optics.Primary, "B", 1), screw(optics.Primary, "C", 1)},
		"primary: A tighten 1/4, lock A tighten 1/4":                              {screw(optics.Primary, "A", 0.25), lock("A", 0.25)},
		"secondary: C ease 3/16, B tighten 3/16; primary: locks A B tighten 1/16": {screw(optics.Secondary, "C", -3./16), screw(optics.Secondary, "B", 3./16), lock("A", 1./16), lock("B", 1./16)},
	} {
		assert.Equal(t, want, turnWords(turns))
	}
}
