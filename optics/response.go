package optics

import "math"

// Errors of hands and figures. Those of hands are what trained people do; the
// rest is trainers' judgement.
const (
	turnSpread      = 0.08 // of the turn, 1σ
	turnLeastSpread = 0.01 // turns
	cueSpread       = 0.5  // of the turn that was foretold, where a cue decided
	lostSpotMM      = 60
	leastWeight     = 1e-5
	doubtBelow      = 0.003
	screwSlack      = 0.12 // of the response, screw by screw
	lockPullOfTurn  = 0.3  // of an adjusting turn, per turn of the lock
)

// priorBank returns what the scope's own figures say of mirror m.
func priorBank(t Telescope, m Mirror) []hypothesis {
	c := t.Cell(m)
	var bank []hypothesis
	for _, asFiled := range []bool{true, false} {
		w := 0.97
		if c.PlacesKnown == Guessed {
			w = 0.9
		}
		if !asFiled {
			w = 1 - w
		}
		for _, p := range places(c.PlacesKnown) {
			d := c
			d.FirstDeg += p
			if !asFiled {
				d.LabelsClockwise = !d.LabelsClockwise
			}
			bank = append(bank, hypothesis{w, asFiled, priorGauss(t, m, d)})
		}
	}
	return normalised(bank)
}

// places returns how far from where the file says the first screw may stand,
// degrees.
func places(known Known) []float64 {
	switch known {
	case Given:
		return []float64{0}
	case Guessed:
		return []float64{-50, -30, -10, 10, 30, 50}
	}
	var all []float64
	for d := 0.0; d < 360; d += 20 {
		all = append(all, d)
	}
	return all
}

func priorGauss(t Telescope, m Mirror, c Cell) gauss {
	g := gauss{n: 2 + 2*c.Screws + 2*c.Locks}
	g.forget(0, lostSpotMM)
	for i := range c.Screws {
		r := PerTurnOf(t, m, c, i)
		a := screwAt(i)
		g.forget(a, 0.3*r.Len())
		g.m[a], g.m[a+1] = r.X, r.Y
		if i < c.Locks {
			g.forget(lockAt(c.Screws, i), lockPullOfTurn*r.Len())
		}
	}
	return g
}

// PerTurnOf returns to first order what a clockwise turn of screw i of cell c
// does to the spot of mirror m, mm: p = L·(2gx, gy) on the primary, t = −2·S·h
// on the target, with the gradient 2·lead/(N·R) of N screws on a circle of
// radius R.
func PerTurnOf(t Telescope, m Mirror, c Cell, i int) Tube {
	s, co := math.Sincos(c.ScrewDeg(i) * math.Pi / 180)
	tilt := 2 * c.LeadMM / (float64(c.Screws) * c.CircleMM)
	if m == Secondary {
		if !c.ClockwisePulls {
			tilt = -tilt
		}
		// From the sky end right is −y.
		return Tube{2 * co, -s}.Scale(tilt * t.FromPrimaryMM)
	}
	if c.ClockwisePulls {
		tilt = -tilt
	}
	return Tube{co, s}.Scale(-2 * tilt * t.PathMM())
}
