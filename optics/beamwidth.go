package optics

import "math"

// laserWavelengthMM is a red laser's: 650 nm.
const laserWavelengthMM = 650e-6

// gaussian is a Gaussian beam's complex parameter at some place: q = z + i·zR.
// (A. E. Siegman, Lasers, ch. 17; B. E. A. Saleh and M. C. Teich, Fundamentals
// of Photonics, ch. 3; both from memory.)
type gaussian complex128

// waist returns a beam at its waist of 1/e² radius w0: zR = π·w0²/λ.
func waist(w0MM, wavelengthMM float64) gaussian {
	return gaussian(complex(0, math.Pi*w0MM*w0MM/wavelengthMM))
}

func (q gaussian) travel(mm float64) gaussian { return q + gaussian(complex(mm, 0)) }

func (q gaussian) focus(focalLengthMM float64) gaussian {
	return 1 / (1/q - gaussian(complex(1/focalLengthMM, 0)))
}

// radiusMM returns the 1/e² radius of the beam where it is.
func (q gaussian) radiusMM(wavelengthMM float64) float64 {
	return math.Sqrt(-wavelengthMM / (math.Pi * imag(1/q)))
}

// ReturnRadiusMM returns the 1/e² radius of the return spot at the target. The
// primary focuses the beam, so that it is about λ·f/(π·w₀), 0.25 to 0.5 mm, and
// not the beam's free width. The beam leaves the hole at its waist.
func (t Telescope) ReturnRadiusMM() float64 {
	out := waist(t.Target.BeamWidthMM/2, laserWavelengthMM)
	back := out.travel(t.PathMM()).focus(t.FocalLengthMM).travel(t.PathMM())
	return back.radiusMM(laserWavelengthMM)
}

// VanishesWithinMM returns how far from the middle of the hole the return spot
// may stand when it is seen to vanish in it: the hole's radius less twice the
// spot's, 1/e² radius. ok is false for a hole so small that the spot never goes
// dark in it; then its dimmest place is all that can be sought, within the
// hole's radius.
func (t Telescope) VanishesWithinMM() (mm float64, ok bool) {
	left := t.Target.HoleRadiusMM - 2*t.ReturnRadiusMM()
	if t.Target.BeamWidthMM <= 0 || left <= 0 {
		return t.Target.HoleRadiusMM, false
	}
	return left, true
}
