package picture

import (
	"encoding/csv"
	"math"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

func circleFits() map[string]func([]Point) (Circle, error) {
	return map[string]func([]Point) (Circle, error){"taubin": FitTaubin, "geometric": FitGeometric}
}

// ganderGolubStrebel reads testdata/published/circlefit.csv.
func ganderGolubStrebel(t *testing.T) (points []Point, rows map[string][]float64) {
	t.Helper()
	f, err := os.Open(filepath.Join("../../testdata/published", "circlefit.csv"))
	require.NoError(t, err)
	defer f.Close()
	r := csv.NewReader(f)
	r.Comment = '#'
	r.FieldsPerRecord = -1
	r.TrimLeadingSpace = true
	all, err := r.ReadAll()
	require.NoError(t, err)
	rows = map[string][]float64{}
	for _, row := range all {
		var v []float64
		for _, s := range row[1 : len(row)-2] { // what it checks and its mark come last
			x, err := strconv.ParseFloat(strings.TrimSpace(s), 64)
			require.NoError(t, err)
			v = append(v, x)
		}
		if row[0] == "point" {
			points = append(points, Point{v[0], v[1]})
		} else {
			rows[row[0]] = v
		}
	}
	require.Len(t, points, 6)
	return points, rows
}

func TestPublishedCircleFits(t *testing.T) {
	points, rows := ganderGolubStrebel(t)
	for name, fit := range circleFits() {
		t.Run(name, func(t *testing.T) {
			want := rows[name]
			require.Len(t, want, 4)
			got, err := fit(points)
			require.NoError(t, err)
			assert.InDelta(t, want[0], got.Centre.X, 1e-8)
			assert.InDelta(t, want[1], got.Centre.Y, 1e-8)
			assert.InDelta(t, want[2], got.Radius, 1e-8)
			assert.InDelta(t, want[3], got.RMS, 1e-6)
		})
	}
}

func TestEveryFitFindsTheCircleOfTruePoints(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		centre := Point{rapid.Float64Range(-50, 50).Draw(t, "x"), rapid.Float64Range(-50, 50).Draw(t, "y")}
		r := rapid.Float64Range(1, 20).Draw(t, "radius")
		var points []Point
		for i := range rapid.IntRange(3, 8).Draw(t, "points") {
			sin, cos := math.Sincos((45*float64(i) + rapid.Float64Range(0, 30).Draw(t, "deg")) * math.Pi / 180)
			points = append(points, centre.add(Point{r * cos, r * sin}))
		}
		for name, fit := range circleFits() {
			got, err := fit(points)
			require.NoError(t, err, name)
			assert.InDelta(t, 0, got.Centre.sub(centre).len(), 1e-6, name)
			assert.InDelta(t, r, got.Radius, 1e-6, name)
		}
	})
}

// No other circle near the geometric one lies nearer to the points.
func TestTheGeometricFitIsLeastSquares(t *testing.T) {
	points, _ := ganderGolubStrebel(t)
	best, err := FitGeometric(points)
	require.NoError(t, err)
	for i := range 24 {
		sin, cos := math.Sincos(float64(i) * math.Pi / 12)
		other := circleAbout(points, best.Centre.add(Point{0.01 * cos, 0.01 * sin}))
		assert.Greater(t, other.RMS, best.RMS)
	}
}

func TestPointsThatMakeNoCircle(t *testing.T) {
	for name, points := range map[string][]Point{
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
