package adviser

import (
	"testing"

	"spotward/optics"
)

// BenchmarkAdvice times one advice: on a scope of which nothing is known, when
// it is new and after forty moves.
func BenchmarkAdvice(b *testing.B) {
	for _, c := range []struct {
		name  string
		moves int
	}{{"first", 0}, {"second", 1}, {"third", 2}, {"late", 40}} {
		b.Run(c.name, func(b *testing.B) {
			w := newWorld(1, 3, trained)
			file := w.scope
			nothingKnown(&file)
			k := NewTracker(file, optics.Secondary, nil)
			g := optics.Goal{InsideMM: 1}
			look := func() {
				z, _ := w.lookAt(optics.Secondary)
				k, _ = k.Look(z)
			}
			look()
			for i := range c.moves {
				turns := 0.25
				if i/3%2 == 1 {
					turns = -0.25
				}
				k = k.Turn([]Move{{Mirror: optics.Secondary, Screw: i % 3, Turns: turns}}, ByAmount)
				w.turn(optics.Secondary, i%3, turns)
				look()
			}
			for b.Loop() {
				Advise(k, g, Options{})
			}
		})
	}
}
