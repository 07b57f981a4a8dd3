package optics

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"
)

var faces = []Face{FacePrimary, FaceSecondary, FaceMouth, FaceTarget, FaceCard}

func flat(t Telescope) Telescope { t.Target.Flat = true; return t }

// The directions of each view, derived by hand from right = look × up.
func TestWhatOneSees(t *testing.T) {
	slanted := tenInch()
	tests := []struct {
		name      string
		scope     Telescope
		face      Face
		station   Station
		right, up Tube
	}{
		{"primary", slanted, FacePrimary, SkyEnd, Tube{Y: -1}, Tube{X: 1}},
		{"secondary", slanted, FaceSecondary, SkyEnd, Tube{Y: -1}, Tube{X: 1}},
		{"card", slanted, FaceCard, SkyEnd, Tube{Y: -1}, Tube{X: 1}},
		{"slanted face", slanted, FaceTarget, Behind, Tube{Y: 1}, Tube{X: -1}},
		{"mouth, slanted face", slanted, FaceMouth, SkyEnd, Tube{Y: -1}, Tube{X: 1}},
		{"flat face", flat(slanted), FaceTarget, SkyEnd, Tube{Y: -1}, Tube{X: 1}},
		{"mouth, flat face", flat(slanted), FaceMouth, SkyEnd, Tube{Y: -1}, Tube{X: 1}},
		{"primary, flat face", flat(slanted), FacePrimary, SkyEnd, Tube{Y: -1}, Tube{X: 1}},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			assert.Equal(t, tt.station, tt.scope.Station(tt.face))
			assert.Equal(t, tt.right, tt.scope.FromSeen(tt.face, Seen{Right: 1}))
			assert.Equal(t, tt.up, tt.scope.FromSeen(tt.face, Seen{Up: 1}))
		})
	}
}

// On the dial the focuser of a point "toward the focuser" is where the file
// says, from the sky end; from behind it is the mirror image.
func TestTheDialIsTurnedByTheFocuser(t *testing.T) {
	scope := tenInch()
	scope.FocuserDeg = 60
	tests := []struct {
		face Face
		seen Seen
		hour float64
	}{
		{FacePrimary, Seen{Up: 1}, 2},
		{FacePrimary, Seen{Right: 1}, 5},
		{FaceCard, Seen{Up: -1}, 8},
		{FaceTarget, Seen{Up: 1}, 10},
		{FaceTarget, Seen{Right: 1}, 1},
	}
	for _, tt := range tests {
		assert.InDelta(t, tt.hour, scope.ToDial(tt.face, tt.seen).Hour(), 1e-9, "%v %v", tt.face, tt.seen)
	}
	assert.InDelta(t, 2, scope.FocuserDial(SkyEnd).Hour(), 1e-9)
	assert.InDelta(t, 10, scope.FocuserDial(Behind).Hour(), 1e-9)
}

func TestScrewsOnTheDial(t *testing.T) {
	scope := tenInch()
	scope.FocuserDeg = 60
	scope.Secondary = Cell{Screws: 3, CircleMM: 14, FirstDeg: 0, LabelsClockwise: true}
	scope.Primary = Cell{Screws: 3, CircleMM: 90, FirstDeg: 30, LabelsClockwise: false}
	for i, hour := range []float64{2, 6, 10} {
		assert.InDelta(t, hour, scope.ScrewDial(Secondary, i).Hour(), 1e-9, "secondary %d", i)
	}
	for i, hour := range []float64{11, 7, 3} { // 1:00 from the focuser, which stands at 10:00
		assert.InDelta(t, hour, scope.ScrewDial(Primary, i).Hour(), 1e-9, "primary %d", i)
	}
}

// The same place on the tube's rim is seen at one hour from the sky end and at
// its mirror image from behind; so is a screw of either mirror.
func TestScrewsAndFacesAgree(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		scope := anyScope(t)
		i := rapid.IntRange(0, scope.Secondary.Screws-1).Draw(t, "screw")
		at := scope.Secondary.Position(Secondary, i).Scale(1 / scope.Secondary.CircleMM)
		want := scope.TubeToDial(FacePrimary, at) // both are seen from the sky end
		got := scope.ScrewDial(Secondary, i)
		assert.InDelta(t, want.Right, got.Right, 1e-9)
		assert.InDelta(t, want.Up, got.Up, 1e-9)

		j := rapid.IntRange(0, scope.Primary.Screws-1).Draw(t, "screw")
		at = scope.Primary.Position(Primary, j).Scale(1 / scope.Primary.CircleMM)
		sky := scope.TubeToDial(FacePrimary, at)
		got = scope.ScrewDial(Primary, j)
		assert.InDelta(t, -sky.Right, got.Right, 1e-9)
		assert.InDelta(t, sky.Up, got.Up, 1e-9)
	})
}

func TestThereAndBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		scope := anyScope(t)
		f := rapid.SampledFrom(faces).Draw(t, "face")
		at := anyTube(t, 100)
		assert.InDelta(t, 0, scope.FromSeen(f, scope.ToSeen(f, at)).Sub(at).Len(), 1e-9)
		d := scope.TubeToDial(f, at)
		assert.InDelta(t, 0, scope.DialToTube(f, d).Sub(at).Len(), 1e-9)
		assert.InDelta(t, at.Len(), d.Len(), 1e-9)
	})
}

func TestRingsOnTheSlantedFace(t *testing.T) {
	scope := tenInch()
	scope.Target.AlongFace = true
	assert.InDelta(t, 10, scope.ToRings(Seen{Up: 7.0711}).Up, 1e-4)
	assert.InDelta(t, 10, scope.ToRings(Seen{Right: 10}).Right, 1e-12)
	assert.InDelta(t, 10, flat(scope).ToRings(Seen{Up: 10}).Up, 1e-12)
	scope.FocuserDeg = 90 // up and down the slope now lies across the dial
	assert.InDelta(t, 10, scope.ToRings(Seen{Right: 10}).Up, 1e-9)
	assert.InDelta(t, -10, scope.ToRings(Seen{Up: 7.0711}).Right, 1e-4)
	scope.Target.AlongFace = false
	assert.InDelta(t, -10, scope.ToRings(Seen{Up: 10}).Right, 1e-9)
}

// The variance of a point's image in any direction is that of the direction's
// image: u'Cu is the same before and after.
func TestCovariancesTurnWithTheirPoints(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		scope := anyScope(t)
		f := rapid.SampledFrom(faces).Draw(t, "face")
		c := Polar(anyTube(t, 1), rapid.Float64Range(0.1, 5).Draw(t, "along"), rapid.Float64Range(0.1, 5).Draw(t, "across"))
		d := Dial{rapid.Float64Range(-1, 1).Draw(t, "right"), rapid.Float64Range(-1, 1).Draw(t, "up")}
		want := variance(c, Tube{d.Right, d.Up})
		s := Seen(d)
		assert.InDelta(t, want, variance(scope.CovFromSeen(f, c), scope.FromSeen(f, s)), 1e-9)
		back := scope.CovToSeen(f, scope.CovFromSeen(f, c))
		assert.InDelta(t, c.XX, back.XX, 1e-9)
		assert.InDelta(t, c.XY, back.XY, 1e-9)
		assert.InDelta(t, c.YY, back.YY, 1e-9)
	})
}

// variance returns u'Cu.
func variance(c Cov, u Tube) float64 { return u.X*u.X*c.XX + 2*u.X*u.Y*c.XY + u.Y*u.Y*c.YY }

func anyTube(t *rapid.T, mm float64) Tube {
	r := rapid.Float64Range(-mm, mm)
	return Tube{r.Draw(t, "x"), r.Draw(t, "y")}
}

// anyScope draws a telescope of sane proportions.
func anyScope(t *rapid.T) Telescope {
	num := func(name string, low, high float64) float64 { return rapid.Float64Range(low, high).Draw(t, name) }
	cell := func(name string, low, high float64) Cell {
		return Cell{
			Screws: rapid.IntRange(3, 4).Draw(t, name), CircleMM: num("circle", low, high),
			LeadMM: num("lead", 0.5, 1.27), FirstDeg: num("first", 0, 360),
			ClockwisePulls: rapid.Bool().Draw(t, "pulls"), LabelsClockwise: rapid.Bool().Draw(t, "clockwise"),
		}
	}
	D := num("aperture", 114, 406)
	f := D * num("ratio", 3.9, 8)
	I := D/2 + num("focus", 60, 120)
	return Telescope{
		ApertureMM: D, FocalLengthMM: f, FromPrimaryMM: f - I, HoleFromAxisMM: I + num("beyond", 0, 60),
		FocuserDeg: num("focuser", 0, 360), PivotAboveMM: num("pivot", 0, 50),
		Secondary: cell("secondary", 9, 21), Primary: cell("primary", 0.33*D, 0.45*D),
		Target: Target{Flat: rapid.Bool().Draw(t, "flat"), AlongFace: rapid.Bool().Draw(t, "along")},
	}
}
