package session_test

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"spotward/optics"
	"spotward/session/words"
)

func TestTurnsInFewWords(t *testing.T) {
	screw := func(m optics.Mirror, name string, turns float64) optics.Turn {
		return optics.Turn{Mirror: m, Screw: name, Turns: turns}
	}
	lock := func(name string, turns float64) optics.Turn {
		return optics.Turn{Mirror: optics.Primary, Lock: name, Turns: turns}
	}
	for want, turns := range map[string][]optics.Turn{
		"":                         nil,
		"primary: B tighten 1/8":   {screw(optics.Primary, "B", 0.125)},
		"primary: lock A ease 1/4": {lock("A", -0.25)},
		"primary: A B C tighten 1": {screw(optics.Primary, "A", 1), screw(optics.Primary, "B", 1), screw(optics.Primary, "C", 1)},
		"primary: A tighten 1/4, lock A tighten 1/4":                              {screw(optics.Primary, "A", 0.25), lock("A", 0.25)},
		"secondary: C ease 3/16, B tighten 3/16; primary: locks A B tighten 1/16": {screw(optics.Secondary, "C", -3./16), screw(optics.Secondary, "B", 3./16), lock("A", 1./16), lock("B", 1./16)},
	} {
		assert.Equal(t, want, words.TurnedWords(turns))
	}
}
