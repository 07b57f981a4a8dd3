package optics

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/spatial/r3"
	"pgregory.net/rapid"
)

func TestPublishedStar(t *testing.T) {
	for _, row := range published(t, "star.csv") {
		v, want := number(t, row[1]), number(t, row[3])
		switch row[0] {
		case "airy":
			assert.InDelta(t, want, AiryMM(v, 550)*1000, 6e-4, row)
		case "airy_sky":
			assert.InDelta(t, want, Telescope{ApertureMM: v, FocalLengthMM: 6 * v}.AiryArcsec(), 1e-3, row)
		case "defocus":
			assert.InDelta(t, want, DefocusMM(v, number(t, row[2]), 550), 6e-4, row)
		case "magnitude":
			assert.InDelta(t, want, Telescope{ApertureMM: v}.StarMagnitude(), 6e-3, row)
		default:
			t.Fatal(row)
		}
	}
}

// starRays traces a star that stands in the middle of the field of a telescope
// whose axis misses it by e: from a place on the open end to one on a screen
// that is racked so far beyond focus, unfolded.
func starRays(t require.TestingT, scope Telescope, e Tube, racked float64) func(Tube) Tube {
	mirror := paraboloid{scope.FocalLengthMM, r3.Vec{}, Tilt{Grad: e.Scale(-1 / scope.FocalLengthMM)}.rotation()}
	down := bounce(r3.Vec{Z: 1}, mirror.turn.Rotate(r3.Vec{Z: 1}))
	return func(at Tube) Tube {
		start := r3.Add(r3.Vec{X: at.X, Y: at.Y}, r3.Scale(-2000, down))
		on, _, n, ok := mirror.hit(ray{start, down})
		require.True(t, ok)
		p, ok := ray{on, bounce(down, n)}.toPlane(r3.Vec{Z: scope.FocalLengthMM + racked}, r3.Vec{Z: 1})
		require.True(t, ok)
		return Tube{p.X, p.Y}
	}
}

// disc returns the middle, by the outline and half way between the edges along
// e, and the width of what is seen of a circle of the open end.
func disc(through func(Tube) Tube, e Tube, radiusMM float64) (outline, edges Tube, width float64) {
	const n = 360
	for i := range n {
		outline = outline.Add(through(turned(Tube{X: radiusMM}, float64(i)*360/n)).Scale(1. / n))
	}
	along := e.Scale(radiusMM / e.Len())
	one, other := through(along), through(along.Scale(-1))
	return outline, one.Add(other).Scale(0.5), one.Sub(other).Len()
}

func TestDerivedStarShadow(t *testing.T) {
	scope := Telescope{ApertureMM: 200, FocalLengthMM: 1000, FromPrimaryMM: 800, HoleFromAxisMM: 210, MinorAxisMM: 50}
	e := Tube{X: 1.391}
	for _, row := range published(t, "star_shadow.csv") {
		waves := number(t, row[0])
		for _, side := range []float64{1, -1} {
			racked := side * DefocusMM(5, waves, WavelengthNM)
			rays := starRays(t, scope, e, racked)
			o1, e1, width := disc(rays, e, 100)
			o2, e2, _ := disc(rays, e, 25)
			for name, c := range map[string]struct {
				rays        Tube
				judge       StarJudge
				least, most string
			}{
				"outline": {o2.Sub(o1), ByOutline, row[1], row[2]},
				"edges":   {e2.Sub(e1), ByEdges, row[3], row[4]},
			} {
				got := c.rays.Scale(1 / width)
				assert.GreaterOrEqual(t, got.X, number(t, c.least)-2e-4, "%s %v", name, row)
				assert.LessOrEqual(t, got.X, number(t, c.most)+2e-4, "%s %v", name, row)
				assert.InDelta(t, 0, got.Y, 1e-6)
				assert.InDelta(t, got.X, scope.StarOffset(e, waves, c.judge).X, 5e-4, "%s %v", name, row)
			}
		}
	}
}

// Toward the axis on both sides of focus, and inside focus the open end is seen
// upright.
func TestTheShadowStandsTowardTheAxis(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		scope := ofRatio(rapid.Float64Range(4, 8).Draw(t, "ratio"))
		scope.MinorAxisMM = rapid.Float64Range(0.15, 0.35).Draw(t, "secondary") * scope.ApertureMM
		e := turned(Tube{X: scope.ComaFreeMM() * rapid.Float64Range(0.2, 1.5).Draw(t, "error")}, rapid.Float64Range(0, 360).Draw(t, "way"))
		waves := rapid.Float64Range(4, 20).Draw(t, "waves")
		racked := -DefocusMM(scope.FocalRatio(), waves, WavelengthNM)
		rays := starRays(t, scope, e, racked)
		_, middle, width := disc(rays, e, scope.ApertureMM/2)
		_, shadow, _ := disc(rays, e, scope.MinorAxisMM/2)
		got, want := shadow.Sub(middle).Scale(1/width), scope.StarOffset(e, waves, ByEdges)
		apart(t, want, got, 0.03*want.Len()+2e-4)
		back := scope.AxisErrorFromStar(Belief{At: want, Cov: Round(0.02)}, waves, ByEdges)
		apart(t, e, back.At, 1e-9)
		assert.InDelta(t, 0.02*e.Len()/want.Len(), back.Cov.Sigma(), 1e-9)
	})
}

func TestInsideFocusTheOpenEndIsUpright(t *testing.T) {
	scope := ofRatio(5)
	for _, side := range []float64{-1, 1} {
		finger := starRays(t, scope, Tube{X: 0.2}, side*DefocusMM(5, 10, WavelengthNM))(Tube{X: 30, Y: 60})
		assert.Negative(t, finger.X*side)
		assert.Negative(t, finger.Y*side)
	}
}

// At 10 waves a shadow 4.5 % of the disc's width off is just Strehl 0.80, at 20
// waves 2.2 %: no far look proves a fine alignment.
func TestWhatALookAtAStarProves(t *testing.T) {
	scope := Telescope{ApertureMM: 200, FocalLengthMM: 1000, FromPrimaryMM: 800, MinorAxisMM: 50}
	edge := Tube{X: scope.ComaFreeMM()}
	assert.InDelta(t, 0.0445, scope.StarOffset(edge, 10, ByEdges).X, 2e-4)
	assert.InDelta(t, 0.0222, scope.StarOffset(edge, 20, ByEdges).X, 1e-4)
	assert.Less(t, scope.StarProvesMM(5), scope.CarefulMM())
	assert.Greater(t, scope.StarProvesMM(20), scope.CarefulMM())
	assert.InDelta(t, 4*scope.StarProvesMM(5), scope.StarProvesMM(20), 1e-9)
}

func TestSidesOfTheDisc(t *testing.T) {
	scope := Telescope{ApertureMM: 200, FocalLengthMM: 1000, MinorAxisMM: 50}
	assert.Zero(t, scope.OffsetOfSides(1))
	// the shadow touches: half the disc less half the shadow
	assert.InDelta(t, 0.5-0.125, scope.OffsetOfSides(0), 1e-12)
	off := scope.OffsetOfSides(0.6)
	assert.InDelta(t, 0.6, (0.375-off)/(0.375+off), 1e-12, "thin over thick")
	rapid.Check(t, func(t *rapid.T) {
		a := rapid.Float64Range(0, 0.85).Draw(t, "thin")
		toward := turned(Tube{X: 90}, rapid.Float64Range(0, 360).Draw(t, "toward"))
		b := scope.StarBelief(a, toward, 5)
		assert.InDelta(t, 1, b.At.Dot(toward)/b.At.Len()/toward.Len(), 1e-9, "it points where the light is thin")
		assert.Greater(t, b.At.Len(), scope.StarBelief(a+0.04, toward, 5).At.Len(), "thinner is worse")
	})
	even := scope.StarBelief(1, Tube{}, 5)
	assert.Equal(t, Tube{}, even.At)
	assert.InDelta(t, scope.StarProvesMM(5), even.WithinMM(0.95), 1e-3)
}

func TestAStarAloneShowsARingThatIsOff(t *testing.T) {
	ring := Tube{X: 1.2, Y: -1.6}
	scope := ofRatio(6)
	// both spots home by such a ring: the beam meets the mirror at its middle
	pose := scope.PoseFor(ring, Tube{})
	truth := traced(t, scope, pose).E
	near(t, ring.Scale(-0.5), truth, 0.02)
	got := RingOffBy(Belief{At: truth}, Belief{At: scope.AxisError(Tube{}, Tube{})})
	near(t, ring, got.At, 0.05)
}

func TestStarPower(t *testing.T) {
	least, from, to := Telescope{ApertureMM: 203.2}.StarPower()
	assert.InDelta(t, 200, least, 1e-9)
	assert.InDelta(t, 320, from, 1e-9)
	assert.InDelta(t, 400, to, 1e-9)
}
