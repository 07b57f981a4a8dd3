package optics

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// read is a reading at (x, y) of an error of sigma mm.
func read(x, y, sigma float64) *Belief { return &Belief{At: Tube{x, y}, Cov: Round(sigma)} }

// heron is a 250 mm f/4.8 for the lending shed.
func heron() Telescope {
	return Telescope{
		ApertureMM: 250, FocalLengthMM: 1200, FromPrimaryMM: 970, HoleFromAxisMM: 250, MinorAxisMM: 63,
		InnerRadiusMM: 142, SkyEndMM: 1300, RingInnerMM: 4.5, RingOuterMM: 8,
		Target: Target{HoleRadiusMM: 3, FaceRadiusMM: 13, BeamWidthMM: 2},
	}
}

func TestVerdicts(t *testing.T) {
	eight := lender(8)
	// A secondary that was knocked takes the return spot along by this much.
	along := (2 - 970/1200.) * 1220 / 970
	tests := []struct {
		name    string
		scope   Telescope
		look    FirstLook
		want    Verdict
		says    string
		primary bool
	}{
		{"home, fast: no laser shows that it is near enough", heron(), FirstLook{P: read(0.4, 0, 0.7), T: read(0, 0.3, 0.5)}, PrimaryOnly, "perhaps not near enough", true},
		{"home, fast, and no more told", heron(), FirstLook{P: read(0.4, 0, 0.7), T: read(0, 0.3, 1.25)}, PrimaryOnly, "perhaps not near enough", true},
		{"home, slow", eight, FirstLook{P: read(1, 1, 0.7), T: read(-1, 0, 1)}, Leave, "Good enough: leave it alone.", true},
		{"inside the ring, slow", eight, FirstLook{P: read(4, 0, 1.5), T: read(3, 1, 1)}, Leave, "Good enough", false},
		{"primary out", heron(), FirstLook{P: read(0.5, 0.5, 0.7), T: read(8, -6, 1)}, PrimaryOnly, "the primary alone is out", true},
		{"primary out, off the face", heron(), FirstLook{P: read(0.5, 0.5, 0.7)}, PrimaryOnly, "too early to give an axis error", true},
		{"secondary knocked", heron(), FirstLook{P: read(6, 2, 1), T: read(6*along, 2*along, 1)}, SecondaryOnly, "come home by itself", false},
		{"secondary knocked far, read roughly", heron(), FirstLook{P: read(15, 0, 4), T: read(15*along-4, 0, 1)}, SecondaryOnly, "come home by itself", false},
		{"both", heron(), FirstLook{P: read(6, 2, 1), T: read(-5, 4, 1)}, BothMirrors, "Start with the secondary", false},
		{"both, return not seen", heron(), FirstLook{P: read(20, 2, 4)}, BothMirrors, "The spot is 20 mm from the middle of the primary (goal: 1.1 mm)", false},
		{"off the primary", heron(), FirstLook{}, BothMirrors, "not on the primary", false},
		{"the axis right, the focuser pointing off", eight, FirstLook{P: read(12, 0, 0.7), T: read(12, 0, 1)}, BothMirrors, "the focuser points 12 mm off", false},
		{"holder", heron(), FirstLook{P: read(0, 0, 0.7), T: read(0, 0, 1), Fault: HolderLoose}, NotToday, "Start with the holder", false},
		{"laser", heron(), FirstLook{P: read(0, 0, 0.7), T: read(0, 0, 1), Fault: LaserBad}, NotToday, "Start with the laser", false},
		{"laser that can be allowed for", heron(), FirstLook{P: read(0, 0, 0.7), T: read(0, 0, 0.5), Fault: LaserOff}, PrimaryOnly, "perhaps not near enough", true},
		{"laser that can be allowed for, slow", eight, FirstLook{P: read(0, 0, 0.7), T: read(0, 0, 0.5), Fault: LaserOff}, Leave, "leave it alone", true},
		{"secondary turned", heron(), FirstLook{P: read(0, 0, 0.7), SecondaryOff: true}, NotToday, "a trained person first", false},
		{"ring missing, fast", heron(), FirstLook{P: read(0, 0, 0.7), T: read(0, 0, 1), RingUnsure: true}, NotToday, "Start with the ring", false},
		{"ring missing, slow", eight, FirstLook{P: read(0, 0, 3), T: read(0, 0, 1), RingUnsure: true}, Leave, "leave it alone", true},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			got := tt.scope.Judge(tt.look)
			assert.Equal(t, tt.want, got.Verdict, got.Why)
			assert.Contains(t, got.Why, tt.says)
			assert.Equal(t, tt.primary, got.PrimaryOffered)
			if tt.want != NotToday {
				assert.Equal(t, tt.look.P != nil && tt.look.T != nil, got.Claimed)
			}
		})
	}
}

// A laser that points off is judged by where its own spots belong.
func TestVerdictsOfALaserThatPointsOff(t *testing.T) {
	scope := lender(6)
	aims := LaserError{Rho: Tube{3, -2}}
	back := scope.BestReturnWith(aims, aims.Rho)
	good := FirstLook{P: read(3, -2, 0.7), T: read(back.X, back.Y, 0.5), Aims: aims, Fault: LaserOff}
	got := scope.Judge(good)
	assert.Equal(t, Leave, got.Verdict)
	assert.InDelta(t, 0, got.Claim.Error.At.Len(), 0.01)
	good.P, good.T = read(0, 0, 0.7), read(0, 0, 1)
	got = scope.Judge(good)
	assert.False(t, got.PrimaryOffered, "the focuser points 3.6 mm off")
}

// Whatever was seen: the figures are those of the readings, the primary alone
// is never offered against an uncentred spot, and never blamed for one.
func TestJudgementIsSound(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		scope := heron()
		p, back := anyTube(t, 20), anyTube(t, 13)
		look := FirstLook{P: read(p.X, p.Y, 0.8), T: read(back.X, back.Y, 1)}
		got := scope.Judge(look)
		e := scope.AxisError(p, back).Len()
		assert.InDelta(t, e, got.Claim.Error.At.Len(), 1e-9)
		assert.GreaterOrEqual(t, got.AxisErrorMaxMM, got.AxisErrorMM)
		after := scope.AxisError(Tube{}, scope.returnAfterSecondary(look).At)
		assert.InDelta(t, axisErrorAfterSecondary(scope, p, back).Len(), after.Len(), 1e-9)
		worse := got.Verdict == Leave && p.Len()/2 > e
		assert.Equal(t, p.Len() <= scope.GoalOnPrimary(AllRound).InsideMM && !worse, got.PrimaryOffered)
		if got.Verdict == PrimaryOnly {
			assert.True(t, got.PrimaryOffered)
		}
		if got.Verdict == Leave && got.Chance < 0.5 {
			assert.LessOrEqual(t, got.AxisErrorMM, 2*LeastGoalMM)
		}
	})
}

// With the primary square the return passes the secondary at about 1.2 times
// the spot on the primary, and leaves at the hour where the spot is seen.
func TestWhereTheBeamIsSaidToLeave(t *testing.T) {
	scope := heron()
	for deg := 0.0; deg < 360; deg += 30 {
		p := turned(Tube{X: 40}, deg)
		s, err := scope.LookBeam(p, nil)
		require.NoError(t, err)
		require.True(t, s.Leaves)
		assert.InDelta(t, 1.2, s.Return.Len()/p.Len(), 0.05)
		cos := s.LeavesAt.Dot(p) / s.LeavesAt.Len() / p.Len()
		assert.Greater(t, cos, math.Cos(40*math.Pi/180))
	}
	s, err := scope.LookBeam(Tube{X: 40}, &Tube{X: 35})
	require.NoError(t, err)
	assert.False(t, s.Leaves, "the primary sends it back to the face")
	near(t, Tube{X: 35}, s.T, 1)
}
