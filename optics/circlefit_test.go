package optics

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

type circleFit func([]Tube) (Circle, error)

func circleFits() map[string]circleFit {
	return map[string]circleFit{"kasa": FitKasa, "pratt": FitPratt, "taubin": FitTaubin, "geometric": FitGeometric}
}

func ganderGolubStrebel(t *testing.T) (points []Tube, rows [][]string) {
	t.Helper()
	for _, row := range published(t, "circlefit.csv") {
		if row[0] == "point" {
			points = append(points, Tube{number(t, row[1]), number(t, row[2])})
			continue
		}
		rows = append(rows, row)
	}
	require.Len(t, points, 6)
	return points, rows
}

func TestPublishedCircleFits(t *testing.T) {
	points, rows := ganderGolubStrebel(t)
	require.Len(t, rows, 4)
	for _, row := range rows {
		t.Run(row[0], func(t *testing.T) {
			got, err := circleFits()[row[0]](points)
			require.NoError(t, err)
			assert.InDelta(t, number(t, row[1]), got.Centre.X, 1e-8)
			assert.InDelta(t, number(t, row[2]), got.Centre.Y, 1e-8)
			assert.InDelta(t, number(t, row[3]), got.RadiusMM, 1e-8)
			assert.InDelta(t, number(t, row[4]), got.RMSMM, 1e-6)
		})
	}
}

// A widely copied list gives (4.921166, 3.835123), r 4.123176 for Kåsa's fit of
// these points. The exact rational answer is (773/163, 5001/1304),
// r² = 28706289/1700416.
func TestKasaIsNotTheCopiedNumber(t *testing.T) {
	points, _ := ganderGolubStrebel(t)
	got, err := FitKasa(points)
	require.NoError(t, err)
	assert.InDelta(t, 773./163, got.Centre.X, 1e-12)
	assert.InDelta(t, 5001./1304, got.Centre.Y, 1e-12)
	assert.InDelta(t, math.Sqrt(28706289./1700416), got.RadiusMM, 1e-12)
}

func TestEveryFitFindsTheCircleOfTruePoints(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		centre, r := anyTube(t, 50), rapid.Float64Range(1, 20).Draw(t, "radius")
		var points []Tube
		for i := range rapid.IntRange(3, 8).Draw(t, "points") {
			deg := 45*float64(i) + rapid.Float64Range(0, 30).Draw(t, "deg")
			points = append(points, centre.Add(turned(Tube{X: r}, deg)))
		}
		for name, fit := range circleFits() {
			got, err := fit(points)
			require.NoError(t, err, name)
			assert.InDelta(t, 0, got.Centre.Sub(centre).Len(), 1e-6, name)
			assert.InDelta(t, r, got.RadiusMM, 1e-6, name)
		}
	})
}

// No other circle near the geometric one lies nearer to the points.
func TestTheGeometricFitIsLeastSquares(t *testing.T) {
	points, _ := ganderGolubStrebel(t)
	best, err := FitGeometric(points)
	require.NoError(t, err)
	for deg := 0.0; deg < 360; deg += 15 {
		other := circleAbout(points, best.Centre.Add(turned(Tube{X: 0.01}, deg)))
		assert.Greater(t, other.RMSMM, best.RMSMM)
	}
}

func TestPointsThatMakeNoCircle(t *testing.T) {
	for name, points := range map[string][]Tube{
		"none":    nil,
		"two":     {{1, 2}, {3, 4}},
		"a line":  {{0, 0}, {1, 1}, {2, 2}, {5, 5}},
		"nearly":  {{0, 0}, {1, 1}, {2, 2.00001}, {5, 5}},
		"a point": {{3, 3}, {3, 3}, {3, 3}},
	} {
		for kind, fit := range circleFits() {
			_, err := fit(points)
			assert.ErrorIs(t, err, ErrCircle, "%s, %s", name, kind)
		}
	}
}
