package optics

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/integrate/quad"
	"gonum.org/v1/gonum/spatial/r3"
)

// overPupil returns the mean of f over a round pupil of radius 1.
func overPupil(f func(x, y float64) float64) float64 {
	const way = 64
	return quad.Fixed(func(square float64) float64 { // equal steps of r² are equal areas
		sum := 0.
		for i := range way {
			s, c := math.Sincos(2 * math.Pi * (float64(i) + 0.5) / way)
			sum += f(math.Sqrt(square)*c, math.Sqrt(square)*s)
		}
		return sum / way
	}, 0, 1, 24, quad.Legendre{}, 0)
}

// strehlOf returns the Strehl ratio of a wavefront (in waves) by its definition:
// how bright its image is in the middle, the light of the whole pupil added up, over
// how bright it would be without error.
func strehlOf(waves func(x, y float64) float64) float64 {
	re := overPupil(func(x, y float64) float64 { return math.Cos(2 * math.Pi * waves(x, y)) })
	im := overPupil(func(x, y float64) float64 { return math.Sin(2 * math.Pi * waves(x, y)) })
	return re*re + im*im
}

// Computed rows hold the typing of the exponential. The others hold how far it may
// be believed: against the light of coma alone, added up over the pupil.
func TestStrehlAgainstTheLightOfThePupil(t *testing.T) {
	scope := ofRatio(5)
	for _, row := range allColumns(t, "strehl.csv") {
		rms, want := number(t, row[0]), number(t, row[1])
		got := scope.Coma(rms * math.Sqrt(32) * 48 * 125 * WavelengthNM * 1e-6)
		assert.InDelta(t, rms, got.RMSWaves, 1e-12)
		if markOf(row) == markComputed {
			assert.InDelta(t, want, got.Strehl, 1e-5)
			continue
		}
		balanced := func(x, y float64) float64 { return rms * math.Sqrt(8) * (3*(x*x+y*y) - 2) * x }
		assert.InDelta(t, want, strehlOf(balanced), 1e-7, "the sum itself, by another program")
		over := got.Strehl - want
		assert.GreaterOrEqual(t, over, 0.0, row)
		assert.Less(t, over, 0.04*math.Pow(2*math.Pi*rms, 4), row)
	}
}

// wavefrontOf returns the wavefront, in waves, of a star whose image stands e off the
// axis of a paraboloid: by the lengths of the light's ways from the star over each
// point of the mirror to the image, at the best focus and place of it.
func wavefrontOf(t *testing.T, scope Telescope, e float64) func(x, y float64) float64 {
	t.Helper()
	f, r := scope.FocalLengthMM, scope.ApertureMM/2
	theta := math.Atan(e / f)
	in := r3.Vec{Y: math.Sin(theta), Z: -math.Cos(theta)}
	image := r3.Vec{Y: e, Z: f}
	raw := func(x, y float64) float64 {
		p := r3.Vec{X: x * r, Y: y * r, Z: (x*x + y*y) * r * r / (4 * f)}
		return (r3.Dot(in, p) + r3.Norm(r3.Sub(image, p))) / (WavelengthNM * 1e-6)
	}
	// what another place or focus of the image would take away
	share := func(shape func(x, y float64) float64) float64 {
		over := overPupil(func(x, y float64) float64 { return shape(x, y) * raw(x, y) })
		return over / overPupil(func(x, y float64) float64 { return shape(x, y) * shape(x, y) })
	}
	flat := func(x, y float64) float64 { return 1 }
	across := func(x, y float64) float64 { return x }
	along := func(x, y float64) float64 { return y }
	focus := func(x, y float64) float64 { return x*x + y*y - 0.5 }
	a, b, c, d := share(flat), share(across), share(along), share(focus)
	return func(x, y float64) float64 {
		return raw(x, y) - a - b*across(x, y) - c*along(x, y) - d*focus(x, y)
	}
}

// F³/90, the root mean square and the Strehl ratio from the light's ways themselves,
// with all that the formula leaves out: mostly astigmatism, which tells at slow
// mirrors, where the error may be millimetres.
func TestComaByTheLightsWays(t *testing.T) {
	for _, f := range []float64{4, 4.7, 5, 6, 8} {
		scope := ofRatio(f)
		for _, e := range []float64{scope.CarefulMM(), scope.ComaFreeMM()} {
			w := wavefrontOf(t, scope, e)
			rms := math.Sqrt(overPupil(func(x, y float64) float64 { return w(x, y) * w(x, y) }))
			coma := scope.Coma(e)
			assert.InDelta(t, rms, coma.RMSWaves, 0.02*rms, "f/%v", f)
			assert.InDelta(t, strehlOf(w), coma.Strehl, 0.008, "f/%v", f)
		}
		assert.InDelta(t, 0.80, strehlOf(wavefrontOf(t, scope, scope.ComaFreeMM())), 0.005, "f/%v", f)
	}
	require.InDelta(t, math.Pi, math.Pi*overPupil(func(x, y float64) float64 { return 1 }), 1e-12)
}
