package optics

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/spatial/r3"
	"pgregory.net/rapid"
)

// ofRatio is an 8-inch of a focal ratio.
func ofRatio(f float64) Telescope {
	return Telescope{ApertureMM: 200, FocalLengthMM: 200 * f, FromPrimaryMM: 200*f - 200, HoleFromAxisMM: 220}
}

func TestPublishedComaByFocalRatio(t *testing.T) {
	for _, row := range published(t, "coma.csv") {
		scope := ofRatio(number(t, row[0]))
		assert.InDelta(t, 1/math.Sqrt(180), scope.Coma(number(t, row[1])).RMSWaves, 2e-4, row)
		assert.InDelta(t, number(t, row[1]), scope.ComaFreeMM(), 0.004*scope.ComaFreeMM(), row)
		assert.InDelta(t, number(t, row[2]), 2*scope.ComaFreeMM(), 0.006*scope.ComaFreeMM(), row)
		assert.InDelta(t, 1./14, scope.Coma(number(t, row[3])).RMSWaves, 2e-4, row)
		assert.InDelta(t, 0.25, scope.Coma(number(t, row[4])).PVWaves, 1e-3, row)
		assert.InDelta(t, number(t, row[6]), scope.CarefulMM(), 6e-4, row)
		// The angle for 1″ of tangential coma, 3θ/(16F²), is the length θ·f.
		theta := number(t, row[5]) / 3600 * math.Pi / 180
		tangentialOverPV := 3 * 2 * scope.FocalRatio() * 1.5 // 3·2F·W131, W131 = 1.5·Wc
		pv := scope.Coma(theta*scope.FocalLengthMM).PVWaves * WavelengthNM * 1e-6
		assert.InDelta(t, 1, tangentialOverPV*pv/scope.FocalLengthMM*3600*180/math.Pi, 2e-3, row)
	}
}

// How far an axis may miss, as texts put it: an arcminute figure, a rule for the
// diameter of the coma-free field, a guide's rules.
func TestPublishedTolerances(t *testing.T) {
	for _, row := range published(t, "tolerance.csv") {
		want := number(t, row[3])
		switch row[0] {
		case "field": // 3 arcminutes: the same edge as F³/90
			d := number(t, row[2])
			scope := Telescope{ApertureMM: d, FocalLengthMM: d * number(t, row[1])}
			assert.InDelta(t, 1, scope.ComaFreeMM()/(want/60*math.Pi/180*scope.FocalLengthMM), 0.035, row)
		case "diameter":
			for _, f := range []float64{4, 4.7, 6, 8} {
				assert.InDelta(t, want, 2*ofRatio(f).ComaFreeMM()/cube(f), 0.0005, row)
			}
		case "careful":
			for _, f := range []float64{4, 4.7, 6, 8} {
				assert.InDelta(t, want, ofRatio(f).CarefulMM()/cube(f), 1e-9, row)
			}
		case "aim", "aim_corrected":
			scope := Telescope{ApertureMM: number(t, row[2]), Corrector: row[0] == "aim_corrected"}
			assert.InDelta(t, want, scope.AimAllowedMM(), 0.05, row)
		default:
			t.Fatal(row)
		}
	}
}

// The wavefront figure is another way of saying how far the rays miss; and the
// primary of the trace is a paraboloid.
func TestPublishedComaRays(t *testing.T) {
	for _, row := range published(t, "coma_rays.csv") {
		D, f := number(t, row[0]), number(t, row[1])
		theta := number(t, row[2]) / 60 * math.Pi / 180
		mirror := paraboloid{f, r3.Vec{}, Tilt{}.rotation()}
		through := func(x, y float64) float64 {
			dir := r3.Vec{Y: math.Sin(theta), Z: -math.Cos(theta)}
			z := (x*x + y*y) / (4 * f)
			in := ray{r3.Sub(r3.Vec{X: x, Y: y, Z: z}, r3.Scale(2*f, dir)), dir}
			at, _, normal, ok := mirror.hit(in)
			require.True(t, ok)
			out, ok := ray{at, bounce(dir, normal)}.toPlane(r3.Vec{Z: f}, r3.Vec{Z: 1})
			require.True(t, ok)
			return out.Y
		}
		chief := through(0, 0)
		assert.InDelta(t, number(t, row[3]), chief, 1e-8, row)
		assert.InDelta(t, number(t, row[4]), (through(0, D/2)+through(0, -D/2))/2-chief, 1e-8, row)
		assert.InDelta(t, number(t, row[6]), through(D/2, 0)-chief, 1e-8, row)
		scope := Telescope{ApertureMM: D, FocalLengthMM: f}
		pvMM := scope.Coma(theta*f).PVWaves * WavelengthNM * 1e-6
		assert.InDelta(t, number(t, row[5]), pvMM*9*scope.FocalRatio(), 1e-8, row)
	}
}

func TestPublishedReturns(t *testing.T) {
	for _, row := range published(t, "returns.csv") {
		v := make([]float64, len(row))
		for i := range row {
			v[i] = number(t, row[i])
		}
		f, s, p0, u, tau := v[0], v[1], v[2], v[3]/1000, v[4]/1000
		scope := Telescope{ApertureMM: 250, FocalLengthMM: f, FromPrimaryMM: 1000, HoleFromAxisMM: s - 1000}
		pose := Pose{Primary: Tilt{Grad: Tube{Y: -tau}}, Laser: Laser{OffsetY: p0, SlopeY: u}}
		for name, got := range map[string]Spots{"exact": traced(t, scope, pose), "first order": scope.FirstOrder(pose)} {
			assert.InDelta(t, v[5], got.T.Y+p0, v[6], "%s %v", name, row)
			assert.InDelta(t, p0+u*s, got.P.Y, 0.001, "%s %v", name, row)
		}
		if p0 == 0 && u == 0 {
			assert.InDelta(t, v[5]/2, traced(t, scope, pose).E.Y, 1e-5, row)
		}
	}
}

func traced(t require.TestingT, scope Telescope, p Pose) Spots {
	s, err := scope.Trace(p)
	require.NoError(t, err)
	return s
}

func TestAllowances(t *testing.T) {
	tests := []struct {
		use       Use
		corrector bool
		mm        float64
		strehl    float64
	}{
		{LowPower, false, 1.229, 0.80},
		{AllRound, false, 0.553, 0.96},
		{Use(""), false, 0.553, 0.96},
		{Planets, false, 0.332, 0.98},
		{LowPower, true, 0.553, 0.96},
		{Planets, true, 0.332, 0.98},
	}
	for _, tt := range tests {
		scope := ofRatio(4.8)
		scope.Corrector = tt.corrector
		got := scope.AllowedMM(tt.use)
		assert.InDelta(t, tt.mm, got, 1e-3, tt.use)
		assert.InDelta(t, tt.strehl, scope.Coma(got).Strehl, 0.005, tt.use)
	}
}

func TestGoals(t *testing.T) {
	tests := []struct {
		name            string
		ratio           float64
		ring, hole      float64
		corrector       bool
		primary, target float64
	}{
		{"fast: the middle, no finer than worth asking", 4, 4.5, 3, false, 1, 1},
		{"in between", 6, 4.5, 3, false, 2.16, 2.196},
		{"slow: never worse than the ring and the hole", 8, 4.5, 3, false, 4.5, 3},
		{"slow, no ring: what the focuser may be out of aim", 10, 0, 3, false, 6, 3},
		{"slow, with a corrector: the aim", 8, 4.5, 3, true, 1, 3},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			scope := ofRatio(tt.ratio)
			scope.RingInnerMM, scope.Target.HoleRadiusMM, scope.Corrector = tt.ring, tt.hole, tt.corrector
			assert.InDelta(t, tt.primary, scope.GoalOnPrimary(AllRound).InsideMM, 1e-9)
			assert.InDelta(t, tt.target, scope.GoalOnTargetWith(LaserError{}, AllRound, Tube{}).InsideMM, 1e-9)
		})
	}
}

func TestTheReturnsGoalFollowsWhatIsLeft(t *testing.T) {
	scope := ofRatio(6)
	assert.Equal(t, Tube{}, scope.GoalOnTargetWith(LaserError{}, AllRound, Tube{0.4, -0.3}).At, "less than an eye can tell")
	left := Tube{3, -2}
	goal := scope.GoalOnTargetWith(LaserError{}, AllRound, left).At
	near(t, left.Scale(1220./1200), goal, 1e-9)
	near(t, Tube{}, traced(t, scope, scope.PoseFor(left, goal)).E, 0.02)
}

// Both goals met to the full leave no more than the allowance, since the
// return's goal takes up what is left on the primary.
func TestGoalsKeepTheAllowance(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		scope := ofRatio(rapid.Float64Range(5, 8).Draw(t, "ratio"))
		p := turned(Tube{X: scope.GoalOnPrimary(AllRound).InsideMM}, rapid.Float64Range(0, 360).Draw(t, "p"))
		goal := scope.GoalOnTargetWith(LaserError{}, AllRound, p)
		r := goal.At.Add(turned(Tube{X: goal.InsideMM}, rapid.Float64Range(0, 360).Draw(t, "r")))
		assert.LessOrEqual(t, scope.AxisError(p, r).Len(), scope.AllowedMM(AllRound)*1.001)
	})
}
