package picture_test

import (
	"flag"
	"image"
	"image/color"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"spotward/optics"
	"spotward/optics/camera"
	"spotward/optics/picture"
)

// dunlin is a 200 mm f/6 with its focuser at 2:00; eightInch is one with it at 12.
func dunlin() optics.Telescope {
	return optics.Telescope{
		ApertureMM: 200, FocalLengthMM: 1200, FromPrimaryMM: 1000, HoleFromAxisMM: 215, MinorAxisMM: 50, InnerRadiusMM: 115, SkyEndMM: 1220,
		FocuserDeg: 60, RingInnerMM: 4.5, RingOuterMM: 8,
		Target: optics.Target{HoleRadiusMM: 3, FaceRadiusMM: 13, RingStepMM: 2, RingCount: 5, AlongFace: true},
	}
}

// How far the picture is read from the truth it was drawn with; the camera's roll
// is not known to whoever reads it.
func offBy(got, want optics.Dial, rollRad float64) float64 {
	sin, cos := math.Sincos(rollRad)
	return math.Hypot(got.Right-(want.Right*cos-want.Up*sin), got.Up-(want.Right*sin+want.Up*cos))
}

// long reports whether -long was given: it is the package's own flag.
func long() bool { return flag.Lookup("long").Value.String() == "true" }

func TestPrimaryIsReadAsItWasDrawn(t *testing.T) {
	any := rapid.Custom(func(t *rapid.T) optics.Dial {
		return optics.AtHour(rapid.Float64Range(0, 12).Draw(t, "hour"), rapid.Float64Range(0, 40).Draw(t, "mm"))
	})
	found := 0
	all := 3
	switch {
	case long():
		all = 24
	case testing.Short():
		all = 1
	}
	for seed := range all {
		spot := any.Example(seed)
		// From the side away from the spot, and beside the vanes at 30° and so on.
		h := camera.Hold{Width: 480, Height: 360, FieldMM: 104, Hour: float64(seed%4)*3 + 2, RollRad: 0.05 * float64(seed%5-2), NoiseLevels: float64(seed % 4), Seed: uint64(seed)}
		got := picture.FindSpot(camera.Primary(dunlin(), spot, h), dunlin(), 0)
		if !got.Found() {
			t.Logf("%v: %s", spot, got.Missing)
			continue
		}
		found++
		assert.Less(t, offBy(got.At, spot, h.RollRad), math.Max(0.1, 0.01*spot.Len()), "%d", seed)
	}
	assert.Greater(t, found, all*3/4)
}

func TestTargetIsReadAsItWasDrawn(t *testing.T) {
	for seed, shadow := range []optics.Dial{{}, {Right: 0.8, Up: -0.5}, {Right: -1.5, Up: 0.3}, {Right: 0.2, Up: 1.9}} {
		if !long() && (seed != 3 || testing.Short()) {
			continue
		}
		h := camera.Hold{Width: 800, Height: 600, Hour: 4, AsideMM: 25, RollRad: 0.04, NoiseLevels: 1, Seed: uint64(seed)}
		got := picture.FindShadow(camera.Target(dunlin(), shadow, h), dunlin(), 0)
		require.Equal(t, picture.Nothing, got.Missing, "%v", shadow)
		assert.Less(t, offBy(got.At, shadow, h.RollRad), 0.08, "%v", shadow)
		k := 2 - dunlin().PathMM()/1200
		assert.InDelta(t, got.Mark.Radius*4.5*k/3, got.Inner.Radius, 6, "%v", shadow)
	}
}

// The nearer the phone is to the axis, the more of the mirror the secondary hides:
// first what lies on the other side.
func TestWhatTheSecondaryHides(t *testing.T) {
	if testing.Short() {
		t.Skip("pictures are for the usual run")
	}
	h := camera.Hold{Width: 480, Height: 360, Hour: 3, Seed: 1}
	in := picture.FindSpot(camera.Primary(dunlin(), optics.Dial{Right: 10, Up: 4}, h), dunlin(), 0)
	assert.True(t, in.Found())
	h.AsideMM = 45
	behind := picture.FindSpot(camera.Primary(dunlin(), optics.Dial{Right: -50, Up: 4}, h), dunlin(), 0)
	assert.Equal(t, picture.Spot, behind.Missing)
	h.AsideMM = 1 // over the middle
	assert.Equal(t, picture.Ring, picture.FindSpot(camera.Primary(dunlin(), optics.Dial{Right: 10, Up: 4}, h), dunlin(), 0).Missing)
}

func TestTheSamePictureForTheSameSeed(t *testing.T) {
	draw := func(seed uint64) *image.RGBA {
		return camera.Primary(dunlin(), optics.Dial{Right: 5}, camera.Hold{Width: 160, Height: 120, NoiseLevels: 2, Seed: seed})
	}
	assert.Equal(t, draw(3), draw(3))
	assert.NotEqual(t, draw(3), draw(4))
	if long() { // a whole picture takes a third of a second
		assert.Equal(t, image.Rect(0, 0, 1200, 900), camera.Target(dunlin(), optics.Dial{}, camera.Hold{}).Bounds())
	}
}

// The noise is as large as it was asked to be, about nothing.
func TestNoise(t *testing.T) {
	h := camera.Hold{Width: 200, Height: 150}
	still := camera.Primary(dunlin(), optics.Dial{Right: 5}, h)
	h.NoiseLevels, h.Seed = 4, 9
	noisy := camera.Primary(dunlin(), optics.Dial{Right: 5}, h)
	var sum, squares, n float64
	for y := range 150 {
		for x := range 200 {
			a, b := still.At(x, y).(color.RGBA), noisy.At(x, y).(color.RGBA)
			if a.G > 20 && a.G < 235 {
				d := float64(b.G) - float64(a.G)
				sum, squares, n = sum+d, squares+d*d, n+1
			}
		}
	}
	require.Greater(t, n, 5000.)
	assert.InDelta(t, 0, sum/n, 0.2)
	assert.InDelta(t, 4, math.Sqrt(squares/n), 0.2)
}

// What is said to be in sight is what a picture shows: behind the secondary and
// from over the middle it is not.
func TestInSight(t *testing.T) {
	spot := optics.Dial{Right: 10, Up: 4}
	assert.True(t, camera.InSight(dunlin(), spot, camera.Hold{Hour: 3}))
	assert.False(t, camera.InSight(dunlin(), spot, camera.Hold{Hour: 3, AsideMM: 1}))
	assert.False(t, camera.InSight(dunlin(), optics.Dial{Right: -50, Up: 4}, camera.Hold{Hour: 3, AsideMM: 45}))
}
