package optics

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// laserTurned is a laser that is out by offset and slope (X along z), turned by
// deg about the focuser's axis, clockwise as one faces its back.
func laserTurned(offset, slope Tube, deg float64) Laser {
	o, s := turned(offset, deg), turned(slope, deg)
	return Laser{OffsetZ: o.X, OffsetY: o.Y, SlopeZ: s.X, SlopeY: s.Y}
}

// Facing the laser's back one looks toward −x with the sky up, so y is on the
// right, and what points to the sky turns toward +y.
func TestWhichWayTheLaserTurns(t *testing.T) {
	l := laserTurned(Tube{X: 1}, Tube{}, 90)
	assert.InDelta(t, 1, l.OffsetY, 1e-12)
	assert.InDelta(t, 0, l.OffsetZ, 1e-12)
}

func TestTheFitFindsTheLaser(t *testing.T) {
	scope := tenInch()
	offset, slope := Tube{0.3, -0.2}, Tube{0.001, 0.003}
	pose := scope.PoseFor(Tube{2, -1}, Tube{})
	var looks []LaserLook
	for _, deg := range []float64{0, 90, 180, 270} {
		pose.Laser = laserTurned(offset, slope, deg)
		s, err := scope.Trace(pose)
		require.NoError(t, err)
		looks = append(looks, LaserLook{deg, s.P})
	}
	fit, err := FitLaser(looks)
	require.NoError(t, err)
	near(t, Tube{2, -1}, fit.Centre, 0.02)
	near(t, offset.Add(slope.Scale(scope.PathMM())), fit.Rho, 0.02)
	near(t, fit.Rho, fit.RhoAt(360), 1e-9)
	assert.Less(t, fit.ResidualMM, 0.02)
	assert.Equal(t, 4, fit.Looks)
}

func TestFitIsLeastSquares(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var looks []LaserLook
		for i := range rapid.IntRange(3, 8).Draw(t, "looks") {
			looks = append(looks, LaserLook{60 * float64(i), anyTube(t, 10)})
		}
		fit, err := FitLaser(looks)
		require.NoError(t, err)
		best := missOf(looks, fit.Centre, fit.Rho)
		for deg := 0.0; deg < 360; deg += 45 {
			d := turned(Tube{X: 0.01}, deg)
			assert.Greater(t, missOf(looks, fit.Centre.Add(d), fit.Rho), best)
			assert.Greater(t, missOf(looks, fit.Centre, fit.Rho.Add(d)), best)
		}
	})
}

func missOf(looks []LaserLook, centre, rho Tube) float64 {
	sum := 0.0
	for _, k := range looks {
		d := k.At.Sub(centre).Sub(turned(rho, k.TurnedDeg))
		sum += d.Dot(d)
	}
	return sum
}

// SigmaMM is the scatter of Rho over many fits, ResidualMM that of a reading.
func TestFitKnowsHowGoodItIs(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 2))
	const runs, noise = 2000, 0.8
	var scatter, claimed, residual float64
	for range runs {
		var looks []LaserLook
		for _, deg := range []float64{0, 40, 80, 120} {
			at := turned(Tube{X: 5}, deg).Add(Tube{noise * r.NormFloat64(), noise * r.NormFloat64()})
			looks = append(looks, LaserLook{deg, at})
		}
		fit, err := FitLaser(looks)
		require.NoError(t, err)
		d := fit.Rho.Sub(Tube{X: 5})
		scatter += d.Dot(d) / 2 / runs
		claimed += fit.SigmaMM * fit.SigmaMM / runs
		residual += fit.ResidualMM * fit.ResidualMM / runs
	}
	assert.InDelta(t, 1, claimed/scatter, 0.08)
	assert.InDelta(t, noise*noise, residual, 0.05*noise*noise)
}

func TestTooFewAngles(t *testing.T) {
	for name, looks := range map[string][]LaserLook{
		"none":        nil,
		"one":         {{0, Tube{1, 1}}},
		"same angle":  {{0, Tube{1, 1}}, {360, Tube{1, 2}}, {0, Tube{2, 1}}},
		"ten degrees": {{0, Tube{1, 1}}, {10, Tube{1, 2}}},
	} {
		_, err := FitLaser(looks)
		assert.ErrorIs(t, err, ErrLaserLooks, name)
	}
	fit, err := FitLaser([]LaserLook{{0, Tube{X: 3}}, {180, Tube{X: -1}}})
	require.NoError(t, err)
	near(t, Tube{X: 1}, fit.Centre, 1e-12)
	near(t, Tube{X: 2}, fit.Rho, 1e-12)
	assert.Zero(t, fit.ResidualMM)
}

// aligned brings a scope's two spots to the places that are wanted, by the
// exact trace, with the laser as it is, and returns them, the true axis error
// among them, and the true aim of the focuser on the primary.
func aligned(t *testing.T, scope Telescope, l Laser, p, r Tube) (s Spots, aim Tube) {
	t.Helper()
	pose := scope.PoseFor(p, r)
	pose.Laser = l
	for range 8 {
		s, err := scope.Trace(pose)
		require.NoError(t, err)
		better := scope.PoseFor(p.Sub(s.P), r.Sub(s.T))
		pose.Secondary = pose.Secondary.Add(better.Secondary)
		pose.Primary = pose.Primary.Add(better.Primary)
	}
	s, err := scope.Trace(pose)
	require.NoError(t, err)
	near(t, p, s.P, 1e-6)
	near(t, r, s.T, 1e-6)
	pose.Laser = Laser{}
	bare, err := scope.Trace(pose)
	require.NoError(t, err)
	return s, bare.P
}

// What a laser that is out spoils and what it does not, and where its goals
// are; the exact trace decides.
func TestALaserThatIsOut(t *testing.T) {
	scope := tenInch()
	offset, slope := Tube{0.2, -0.1}, Tube{0.002, 0.0035} // 4 mrad
	l := laserTurned(offset, slope, 0)
	e := LaserError{Rho: offset.Add(slope.Scale(scope.PathMM())), Offset: offset}

	t.Run("both spots home: the primary nearly right, the aim off", func(t *testing.T) {
		s, aim := aligned(t, scope, l, Tube{}, Tube{})
		near(t, scope.AxisErrorBothHome(e), s.E, 0.02)
		assert.InDelta(t, 0.29, s.E.Len(), 0.05) // d and 4 mrad · 20 mm
		near(t, e.Rho, aim.Scale(-1), 0.1)
	})
	t.Run("the goals moved: both right", func(t *testing.T) {
		s, aim := aligned(t, scope, l, e.Rho, scope.BestReturnWith(e, e.Rho))
		near(t, Tube{}, s.E, 0.02)
		near(t, Tube{}, aim, 0.05)
		k := scope.PathMM() / scope.FocalLengthMM
		near(t, e.Rho.Scale(2-k).Sub(offset.Scale(2)), scope.BestReturnWith(e, e.Rho), 1e-9)
	})
	t.Run("some p left: the best return still leaves nothing", func(t *testing.T) {
		p := Tube{-3, 5}
		s, _ := aligned(t, scope, l, p, scope.BestReturnWith(e, p))
		near(t, Tube{}, s.E, 0.03)
	})
	t.Run("any spots: the error they stand for", func(t *testing.T) {
		s, _ := aligned(t, scope, l, Tube{4, 1}, Tube{-2, 3})
		near(t, s.E, scope.AxisErrorWith(e, s.P, s.T), 0.03)
	})
	t.Run("offset unknown: that much, times f/S, is not seen", func(t *testing.T) {
		s, aim := aligned(t, scope, l, e.Rho, scope.BestReturnWith(LaserError{Rho: e.Rho}, e.Rho))
		near(t, offset.Scale(scope.FocalLengthMM/scope.PathMM()), s.E, 0.02)
		near(t, Tube{}, aim, 0.05)
	})
}

// The trap: the circle's centre brought to the middle of the ring and the
// return into the hole looks right and leaves 1.2 mm for 2 mrad; leaving the
// laser's circle alone and bringing both spots home leaves 0.04.
func TestCentringTheCircleIsATrap(t *testing.T) {
	scope := tenInch()
	slope := Tube{X: 0.002}
	rho := slope.Scale(scope.PathMM())
	l := laserTurned(Tube{}, slope, 0)
	s, aim := aligned(t, scope, l, rho, Tube{}) // circle's centre on the ring: the spot itself at rho
	assert.InDelta(t, 1.2, s.E.Len(), 0.05)
	near(t, Tube{}, aim, 0.05)
	s, _ = aligned(t, scope, l, Tube{}, Tube{})
	assert.InDelta(t, 0.04, s.E.Len(), 0.01)
}

func TestLaserOrHolder(t *testing.T) {
	scope := tenInch() // 3 % of 254 mm: 7.6, a third of it 2.5
	tests := []struct {
		name   string
		radius float64
		scat   float64 // residual
		seatMM float64
		want   LaserFault
	}{
		{"true", 1, 0.5, 1, LaserTrue},
		{"off, repeats", 5, 0.5, 1, LaserOff},
		{"off by more than can be allowed for", 9, 0.5, 1, LaserBad},
		{"does not come back", 5, 0.5, 6, HolderLoose},
		{"scatters about its circle", 5, 4, 0, HolderLoose},
		{"a circle no larger than its own error", 3, 2.6, 0, LaserTrue},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			fit := LaserFit{Rho: Tube{Y: tt.radius}, ResidualMM: tt.scat, SigmaMM: tt.scat * 0.6, Looks: 4}
			assert.Equal(t, tt.want, scope.JudgeLaser(fit, tt.seatMM))
		})
	}
	corrected := scope
	corrected.Corrector = true // 0.5 %: 1.27 and 0.42
	assert.Equal(t, LaserOff, corrected.JudgeLaser(LaserFit{Rho: Tube{X: 1}, Looks: 4}, 0))
	assert.Equal(t, LaserBad, corrected.JudgeLaser(LaserFit{Rho: Tube{X: 1.5}, Looks: 4}, 0))
}

func TestSeatSpread(t *testing.T) {
	assert.Zero(t, SeatSpreadMM(nil))
	assert.Zero(t, SeatSpreadMM([]Tube{{1, 1}}))
	assert.InDelta(t, 5, SeatSpreadMM([]Tube{{0, 0}, {1, 1}, {3, 4}}), 1e-12)
}

// Two seats of an error σ an axis lie σ·√π apart in the mean: by drawing them.
func TestScatterLimitBelongsToTheSpread(t *testing.T) {
	r := rand.New(rand.NewPCG(3, 4))
	sigma := SeatLimitMM / math.Sqrt(math.Pi)
	mean := 0.0
	for range 4000 {
		a := Tube{sigma * r.NormFloat64(), sigma * r.NormFloat64()}
		b := Tube{sigma * r.NormFloat64(), sigma * r.NormFloat64()}
		mean += SeatSpreadMM([]Tube{a, b}) / 4000
	}
	assert.InDelta(t, SeatLimitMM, mean, 0.15)
}
