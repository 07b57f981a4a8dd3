package virtual

import "math"

// wavelengthMM is that of a red laser.
const wavelengthMM = 650e-6

// gaussian is a beam of light by its complex parameter q = z + i·z_R, mm
// (Saleh and Teich, Fundamentals of Photonics, the chapter on beam optics, from
// memory).
type gaussian complex128

// waist returns a beam at its narrowest, widthMM across (1/e²).
func waist(widthMM float64) gaussian {
	return gaussian(complex(0, math.Pi*widthMM*widthMM/4/wavelengthMM))
}

// on returns the beam a distance further on.
func (q gaussian) on(mm float64) gaussian { return q + gaussian(complex(mm, 0)) }

// focused returns the beam after a mirror of the given focal length.
func (q gaussian) focused(focalMM float64) gaussian {
	return 1 / (1/q - gaussian(complex(1/focalMM, 0)))
}

// width returns how wide the beam is, mm (1/e²).
func (q gaussian) width() float64 {
	return 2 * math.Sqrt(-wavelengthMM/math.Pi/imag(1/complex128(q)))
}

// shareWithin returns the part of a round spot's light that falls into a
// circle of radius r, whose middle is off from the spot's, all mm.
func shareWithin(widthMM, off, r float64) float64 {
	const rings = 32
	share := 0.0
	for i := range rings {
		// Each ring of the spot holds the same light: 1 − exp(−8ρ²/width²) of it
		// lies within ρ.
		rho := widthMM * math.Sqrt(-math.Log(1-(float64(i)+0.5)/rings)/8)
		share += arcWithin(rho, off, r) / rings
	}
	return share
}

// arcWithin returns the part of a circle of radius rho that lies within one of
// radius r, whose middle is off from its own.
func arcWithin(rho, off, r float64) float64 {
	switch {
	case off+rho <= r:
		return 1
	case math.Abs(off-rho) >= r:
		return 0
	}
	return math.Acos((off*off+rho*rho-r*r)/(2*off*rho)) / math.Pi
}
