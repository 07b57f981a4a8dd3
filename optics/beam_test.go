package optics

import (
	"fmt"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// tenInch is a 254 mm f/4.7 with a laser hole 20 mm beyond the focal plane.
func tenInch() Telescope {
	return Telescope{
		ApertureMM: 254, FocalLengthMM: 1194, FromPrimaryMM: 967, HoleFromAxisMM: 247,
		MinorAxisMM: 63, InnerRadiusMM: 142, SkyEndMM: 1300,
	}
}

// newtonian is the independent trace: testdata/published/newtonian.pov, run in
// POV-Ray 3.7, whose own code finds where the beam meets each surface.
func newtonian(t *testing.T) (scopes []Telescope, poses []Pose, want []Spots) {
	t.Helper()
	for _, row := range published(t, "newtonian.out.csv") {
		v := numbers(t, row)
		require.Len(t, v, 17)
		scopes = append(scopes, Telescope{ApertureMM: 1e9, FocalLengthMM: v[0], FromPrimaryMM: v[1], HoleFromAxisMM: v[2]})
		poses = append(poses, Pose{
			Secondary: Tilt{Grad: Tube{v[3], v[4]}},
			Primary:   Tilt{Grad: Tube{v[5], v[6]}},
			Laser:     Laser{OffsetY: v[7], OffsetZ: v[8], SlopeY: v[9], SlopeZ: v[10]},
		})
		want = append(want, Spots{P: Tube{v[11], v[12]}, Q: Tube{v[13], v[14]}, T: Tube{v[16], v[15]}})
	}
	return scopes, poses, want
}

func near(t *testing.T, want, got Tube, mm float64, msg ...any) {
	t.Helper()
	assert.LessOrEqual(t, got.Sub(want).Len(), mm, fmt.Sprintln(append(msg, "want", want, "got", got)...))
}

func TestTraceAgreesWithPOVRay(t *testing.T) {
	scopes, poses, want := newtonian(t)
	require.Len(t, scopes, 48)
	for i := range scopes {
		got, err := scopes[i].Trace(poses[i])
		require.NoError(t, err)
		near(t, want[i].P, got.P, 1e-5, "p, case", i)
		near(t, want[i].Q, got.Q, 1e-5, "q, case", i)
		near(t, want[i].T, got.T, 1e-5, "t, case", i)
	}
}

// A tilted mirror throws its axis as far as the beam that goes along it: with
// a laser put on the reflected axis, the return comes back on itself.
func TestAxisErrorIsWhereAnAxialBeamStarts(t *testing.T) {
	scope := tenInch()
	scope.HoleFromAxisMM = scope.FocalLengthMM - scope.FromPrimaryMM // the hole in the focal plane
	pose := Pose{Primary: Tilt{Grad: Tube{0.003, -0.002}}}
	s, err := scope.Trace(pose)
	require.NoError(t, err)
	pose.Laser = Laser{OffsetZ: s.E.X, OffsetY: s.E.Y, SlopeZ: pose.Primary.Grad.X, SlopeY: pose.Primary.Grad.Y}
	s, err = scope.Trace(pose)
	require.NoError(t, err)
	near(t, Tube{}, s.P, 0.01)
	near(t, Tube{}, s.T, 0.01)
	assert.Greater(t, s.E.Len(), 4.0)
}

func TestPivotAndShift(t *testing.T) {
	scope := tenInch()
	s, err := scope.Trace(Pose{Secondary: Tilt{ShiftMM: 0.7}})
	require.NoError(t, err)
	// The fold moves away from the primary by 0.7, the beam that comes in
	// sideways away from the focuser by as much; the axis likewise.
	near(t, Tube{X: -0.7}, s.P, 1e-9)
	near(t, Tube{X: -0.7}, s.Outgoing, 1e-9)
	near(t, Tube{X: 0.7}, s.E, 1e-9)

	// A primary that moves up shortens the beam's way to it.
	s, err = scope.Trace(Pose{Secondary: Tilt{Grad: Tube{Y: 1e-3}}, Primary: Tilt{ShiftMM: 100}})
	require.NoError(t, err)
	assert.InDelta(t, 867e-3, s.P.Y, 1e-3)

	scope.PivotAboveMM = 40
	along, err := scope.Trace(Pose{Secondary: Tilt{Grad: Tube{X: 1e-5}}})
	require.NoError(t, err)
	across, err := scope.Trace(Pose{Secondary: Tilt{Grad: Tube{Y: 1e-5}}})
	require.NoError(t, err)
	assert.InDelta(t, 2+40/967.0, along.P.X/across.P.Y, 1e-4)
	near(t, Tube{X: 40e-5}, along.Outgoing, 1e-6)
}

func TestWhereTheBeamEnds(t *testing.T) {
	tests := []struct {
		name         string
		pose         Pose
		wall, leaves bool
		vertices     int
	}{
		{"home", Pose{}, false, false, 5},
		{"return past the secondary", Pose{Secondary: Tilt{Grad: Tube{Y: 0.040}}}, false, true, 4},
		{"off the primary", Pose{Secondary: Tilt{Grad: Tube{Y: 0.140}}}, true, false, 5},
		{"off the primary, and so not out", Pose{Secondary: Tilt{Grad: Tube{Y: 0.140}}, Primary: Tilt{Grad: Tube{Y: 0.05}}}, true, false, 5},
		{"return into the wall", Pose{Secondary: Tilt{Grad: Tube{Y: 0.050}}, Primary: Tilt{Grad: Tube{Y: -0.08}}}, false, false, 5},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			s, err := tenInch().Trace(tt.pose)
			require.NoError(t, err)
			assert.Equal(t, tt.wall, s.Wall)
			assert.Equal(t, tt.leaves, s.Leaves)
			assert.Len(t, s.Beam, tt.vertices)
			last := s.Beam[len(s.Beam)-1]
			if tt.leaves {
				assert.InDelta(t, 1300, last.Z, 1e-9)
				near(t, Tube{last.X, last.Y}, s.LeavesAt, 1e-12)
			} else {
				assert.InDelta(t, 247, last.X, 1e-9)
			}
		})
	}
}

func TestBeamThatNeverArrives(t *testing.T) {
	for name, pose := range map[string]Pose{
		"secondary turned away": {Secondary: Tilt{Grad: Tube{X: -2}}},
		"laser upward":          {Laser: Laser{SlopeZ: 50}},
		"primary turned away":   {Primary: Tilt{Grad: Tube{X: 1.6}}},
		"not a number":          {Primary: Tilt{Grad: Tube{X: math.NaN()}}},
	} {
		s, err := tenInch().Trace(pose)
		assert.ErrorIs(t, err, ErrNoBeam, name)
		assert.Empty(t, s, name)
	}
}
