package adviser

import (
	"math"

	"spotward/optics"
)

// fitLocks gives each lock of the primary a pull like 0.15–0.45 of an adjusting
// turn per turn of its own, its own way.
func (w *world) fitLocks() {
	for i := range w.scope.Primary.Screws {
		size := w.tilt(optics.Primary, i).Grad.Len() * (0.15 + 0.3*w.rng.Float64())
		w.pull = append(w.pull, w.polar(size, 2*math.Pi*w.rng.Float64()))
	}
}

// nips is how far each lock goes in each round, in turns.
var nips = []float64{1.0 / 16, 1.0 / 8, 1.0 / 16}

// tighten tightens the locks in rounds, a look a lock; from the second round on
// the spot is parked against what they will still pull.
func (v *visit) tighten() {
	left := make([]float64, len(v.w.pull))
	for i := range left {
		for _, n := range nips {
			left[i] += n
		}
	}
	for _, n := range nips {
		for i := range v.w.pull {
			v.w.lock(i, n)
			v.k = v.k.LockTurn(i, n)
			left[i] -= n
			v.look()
		}
		v.follow(ParkGoal(v.k, v.goal, left))
	}
}
