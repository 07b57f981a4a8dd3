package optics

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// apart asserts that two points are no more than mm apart.
func apart(t require.TestingT, want, got Tube, mm float64) {
	assert.LessOrEqual(t, got.Sub(want).Len(), mm, "want %v, got %v", want, got)
}

// shadowRay finds, by the exact trace alone, where the light comes back that met
// the primary at the ring's middle: from a source that spreads it, whichever
// way the laser points.
func shadowRay(t require.TestingT, scope Telescope, pose Pose, ring Tube) Tube {
	for range 6 {
		miss := ring.Sub(traced(t, scope, pose).P).Scale(1 / scope.PathMM())
		pose.Laser.SlopeZ += miss.X
		pose.Laser.SlopeY += miss.Y
	}
	spots := traced(t, scope, pose)
	apart(t, ring, spots.P, 1e-6)
	return spots.T
}

// The lender's 254 mm f/4.7 with the mirrors out, the source off, the ring off:
// first order against exact rays.
func TestShadowByExactRays(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		scope := Telescope{ApertureMM: 254, FocalLengthMM: 1194, FromPrimaryMM: 967, HoleFromAxisMM: 247}
		point := func(name string, most float64) Tube {
			return turned(Tube{X: rapid.Float64Range(0, most).Draw(t, name)}, rapid.Float64Range(0, 360).Draw(t, name+" way"))
		}
		aim, ring, source, slope := point("aim", 10), point("ring", 3), point("source", 1), point("slope", 3e-3)
		pose := scope.PoseFor(aim, point("return", 8))
		truth := traced(t, scope, pose).E
		pose.Laser = Laser{OffsetZ: source.X, OffsetY: source.Y, SlopeZ: slope.X, SlopeY: slope.Y}
		shadow := shadowRay(t, scope, pose, ring)
		s := ShadowSource{Aim: Belief{At: aim}, Source: Belief{At: source}, Ring: Belief{At: ring}}
		apart(t, scope.ShadowOf(Belief{At: truth}, s).At, shadow, 0.06)
		apart(t, truth, scope.AxisErrorFromShadow(Belief{At: shadow}, s).At, 0.03)
	})
}

func TestTracedRingShadow(t *testing.T) {
	for _, row := range published(t, "ring_shadow.out.csv") {
		v := numbers(t, row)
		require.Len(t, v, 13)
		scope := Telescope{FocalLengthMM: v[0], FromPrimaryMM: v[1], HoleFromAxisMM: v[2]}
		e, shadow := Tube{v[3], v[4]}, Tube{v[11], v[12]}
		s := ShadowSource{Aim: Belief{At: Tube{v[5], v[6]}}, Source: Belief{At: Tube{v[7], v[8]}}, Ring: Belief{At: Tube{v[9], v[10]}}}
		apart(t, shadow, scope.ShadowOf(Belief{At: e}, s).At, 0.001*shadow.Len()+1e-5)
		apart(t, e, scope.AxisErrorFromShadow(Belief{At: shadow}, s).At, 0.001*e.Len()+0.003)
	}
}

func TestTheLasersSlopeLeavesTheShadow(t *testing.T) {
	scope := ofRatio(4.7)
	pose := scope.PoseFor(Tube{3, -2}, Tube{5, 1})
	straight := shadowRay(t, scope, pose, Tube{})
	pose.Laser = Laser{SlopeY: 2e-3, SlopeZ: -1e-3}
	apart(t, straight, shadowRay(t, scope, pose, Tube{}), 1e-6)
	spot := traced(t, scope, pose)
	assert.Greater(t, spot.P.Sub(Tube{3, -2}).Len(), 2.0, "while the spot has gone")
}

// What leaks in of the focuser's aim is 1.6 %, of the source's offset all of
// it, of the ring's half.
func TestWhatSpoilsAShadow(t *testing.T) {
	scope := Telescope{ApertureMM: 254, FocalLengthMM: 1194, FromPrimaryMM: 967, HoleFromAxisMM: 247}
	e := func(s ShadowSource) float64 { return scope.AxisErrorFromShadow(Belief{}, s).At.X }
	assert.InDelta(t, -0.0165, e(ShadowSource{Aim: Belief{At: Tube{X: 1}}}), 5e-4)
	assert.InDelta(t, 0.984, e(ShadowSource{Source: Belief{At: Tube{X: 1}}}), 1e-3)
	assert.InDelta(t, -0.484, e(ShadowSource{Ring: Belief{At: Tube{X: 1}}}), 1e-3)
}

func TestShadowThereAndBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		scope := ofRatio(rapid.Float64Range(4, 8).Draw(t, "ratio"))
		v := rapid.Float64Range(-5, 5)
		e := Belief{At: Tube{v.Draw(t, "x"), v.Draw(t, "y")}, Cov: Polar(Tube{1, v.Draw(t, "way")}, 0.4, 0.2)}
		s := ShadowSourceOf(Method{}, Belief{At: Tube{v.Draw(t, "aim"), 1}, Cov: Round(1)})
		there := scope.ShadowOf(e, s)
		apart(t, e.At, scope.AxisErrorFromShadow(there, s).At, 1e-9)
		known := ShadowSource{Aim: Belief{At: s.Aim.At}}
		back := scope.AxisErrorFromShadow(scope.ShadowOf(e, known), known)
		assert.InDelta(t, e.Cov.XX, back.Cov.XX, 1e-9)
		assert.InDelta(t, e.Cov.XY, back.Cov.XY, 1e-9)
		// an unknown source makes it no surer, either way
		assert.Greater(t, scope.AxisErrorFromShadow(there, s).Cov.Sigma(), e.Cov.Sigma())
	})
}

func TestAMeasuredSourceIsBelieved(t *testing.T) {
	scope := ofRatio(6)
	told := scope.AxisErrorFromShadow(Belief{}, ShadowSourceOf(Method{LaserOffsetMM: ptr(0), RingPlacedMM: ptr(0)}, Belief{}))
	assert.Zero(t, told.Cov.Sigma())
	guessed := scope.AxisErrorFromShadow(Belief{}, ShadowSourceOf(Method{}, Belief{}))
	assert.InDelta(t, 0.39, guessed.Cov.Sigma(), 0.01)
}
