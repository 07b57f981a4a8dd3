package optics

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"
)

// One look dead in the ring with an even glow, as worked out by hand: the spot 0.7
// mm and the hole 0.5 mm an axis, half of each; with the ring at 0.3 mm and the
// laser at 0.1.
func TestTheBestOfOneLook(t *testing.T) {
	ring, laser := TemplateRingMM, RolledLaserMM
	settled := Method{RingPlacedMM: &ring, LaserOffsetMM: &laser}
	for _, c := range []struct{ ratio, within float64 }{{4, 0.22}, {4.8, 0.52}, {5, 0.61}} {
		scope := Telescope{ApertureMM: 200, FocalLengthMM: 200 * c.ratio, FromPrimaryMM: 200*c.ratio - 190, HoleFromAxisMM: 205}
		assert.InDelta(t, c.within, scope.BestClaim(settled).Within, 0.02, "f/%g", c.ratio)
		assert.Less(t, scope.BestClaim(Method{}).Within, scope.BestClaim(settled).Within)
		assert.NotEqual(t, GradeReady, scope.BestClaim(Method{}).Grade(), "no laser routine is ready at f/%g while neither is known", c.ratio)
	}
	slow := Telescope{ApertureMM: 150, FocalLengthMM: 1200, FromPrimaryMM: 1010, HoleFromAxisMM: 205}
	assert.Equal(t, GradeReady, slow.BestClaim(Method{}).Grade())
	assert.Empty(t, slow.Settling(Method{}, EyesMM, EvenMM))
}

// At f/5 and faster the laser has to be measured, and the spot or the ring's shadow
// photographed; at f/4 a star is left.
func TestSettlingFastScopes(t *testing.T) {
	for _, c := range []struct {
		ratio float64
		want  []Look
	}{
		{6, []Look{LookEven}},
		{5, []Look{LookEven, LookPicture, LookRing, LookLaser}},
		{4.8, []Look{LookLaser, LookShadow}},
		{4, []Look{LookStar}},
	} {
		scope := Telescope{ApertureMM: 250, FocalLengthMM: 250 * c.ratio, FromPrimaryMM: 250*c.ratio - 240, HoleFromAxisMM: 250}
		assert.Equal(t, c.want, scope.Settling(Method{}, EyesMM, 1.25), "f/%g", c.ratio)
	}
}

func TestGrades(t *testing.T) {
	for _, c := range []struct {
		within, comaFree, sigma float64 // sigma: mm an axis, where 1 mm is allowed
		want                    Grade
	}{
		{0.7, 0.97, 0.5, GradeReady}, {0.69, 1, 0.5, GradeLowPower}, {0.9, 0.96, 0.5, GradeLowPower}, {0, 0.9, 0.5, GradeLowPower}, {0.9, 0.89, 0.5, GradeNote},
		// 1 − exp(−1/(2σ²)) is 0.8 at σ = 0.557.
		{0.75, 0.97, 0.55, GradeReady}, {0.75, 0.97, 0.565, GradeLowPower},
	} {
		claim := Claim{Error: Belief{Cov: Round(c.sigma)}, AllowedMM: 1, Within: c.within, ComaFree: c.comaFree}
		assert.Equal(t, c.want, claim.Grade(), c)
	}
}

// What is done to know more never earns less, and of what would earn it nothing can
// be left out.
func TestSettling(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		ratio := rapid.Float64Range(3.5, 9).Draw(t, "ratio")
		d := rapid.Float64Range(100, 400).Draw(t, "aperture")
		scope := Telescope{ApertureMM: d, FocalLengthMM: d * ratio, FromPrimaryMM: d*ratio - d, HoleFromAxisMM: d + 20}
		p, r := rapid.Float64Range(0.3, 3).Draw(t, "p"), rapid.Float64Range(0.3, 3).Draw(t, "r")
		looks := scope.Settling(Method{}, p, r)
		if len(looks) == 1 && looks[0] == LookStar {
			return
		}
		assert.Equal(t, GradeReady, scope.chancesAt(Method{}, p, r, looks).Grade())
		for i := range looks {
			fewer := append(append([]Look{}, looks[:i]...), looks[i+1:]...)
			assert.NotEqual(t, GradeReady, scope.chancesAt(Method{}, p, r, fewer).Grade(), "%v without %s", looks, looks[i])
		}
	})
}

// Two readings that agree are worth more than either, whichever comes first; two
// that do not are not put together.
func TestTogether(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a := Belief{At: anyTube(t, 2), Cov: Polar(anyTube(t, 1), rapid.Float64Range(0.2, 2).Draw(t, "along"), rapid.Float64Range(0.2, 2).Draw(t, "across"))}
		b := Belief{At: anyTube(t, 2), Cov: Round(rapid.Float64Range(0.2, 2).Draw(t, "sigma"))}
		ab, ok := a.Together(b)
		ba, too := b.Together(a)
		assert.Equal(t, ok, too)
		if !ok {
			assert.Equal(t, b, ab)
			return
		}
		assert.InDelta(t, 0, ab.At.Sub(ba.At).Len(), 1e-9)
		assert.InDelta(t, ab.Cov.XY, ba.Cov.XY, 1e-9)
		assert.LessOrEqual(t, ab.Cov.Sigma(), math.Min(a.Cov.Sigma(), b.Cov.Sigma())+1e-12)
	})
	both, ok := Belief{At: Tube{X: 1}, Cov: Round(1)}.Together(Belief{At: Tube{X: -1}, Cov: Round(1)})
	assert.True(t, ok)
	near(t, Tube{}, both.At, 1e-12)
	assert.InDelta(t, math.Sqrt2/2, both.Cov.Sigma(), 1e-12)
	_, ok = Belief{At: Tube{X: 3}, Cov: Round(0.5)}.Together(Belief{Cov: Round(0.5)})
	assert.False(t, ok)
}
