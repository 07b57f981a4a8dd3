package optics

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/spatial/r3"
	"pgregory.net/rapid"
)

func TestPublishedStar(t *testing.T) {
	// how near: to the last digit of what was computed, and as near as the text, or
	// first order, is
	within := map[string]map[string]float64{
		"airy":      {markComputed: 6e-4, markTraced: 2e-3},
		"airy_sky":  {markComputed: 1e-3, markPublished: 0.05},
		"defocus":   {markComputed: 6e-4, markTraced: 0.015, markPublished: 0.1},
		"magnitude": {markComputed: 6e-3, markPublished: 0.05},
	}
	for _, row := range allColumns(t, "star.csv") {
		v, want := number(t, row[1]), number(t, row[3])
		near, ok := within[row[0]][markOf(row)]
		require.True(t, ok, row)
		switch row[0] {
		case "airy":
			assert.InDelta(t, want, AiryMM(v, 550)*1000, near, row)
		case "airy_sky":
			assert.InDelta(t, want, Telescope{ApertureMM: v, FocalLengthMM: 6 * v}.AiryArcsec(), near, row)
		case "defocus":
			assert.InDelta(t, want, DefocusMM(v, number(t, row[2]), 550), near, row)
		case "magnitude":
			assert.InDelta(t, want, Telescope{ApertureMM: v}.StarMagnitude(), near, row)
		}
	}
}

// starLight is the light of a star that stands in the middle of the field of a
// telescope whose axis misses it by e, unfolded: from a place in it to one on a
// screen that is racked so far beyond focus.
type starLight struct {
	t      require.TestingT
	mirror paraboloid
	down   r3.Vec
	racked float64
}

func lightOf(t require.TestingT, scope Telescope, e Tube, racked float64) starLight {
	mirror := paraboloid{scope.FocalLengthMM, r3.Vec{}, Tilt{Grad: e.Scale(-1 / scope.FocalLengthMM)}.rotation()}
	return starLight{t, mirror, bounce(r3.Vec{Z: 1}, mirror.turn.Rotate(r3.Vec{Z: 1})), racked}
}

func (s starLight) past(at r3.Vec) Tube {
	on, _, n, ok := s.mirror.hit(ray{r3.Sub(at, r3.Scale(10, s.down)), s.down})
	require.True(s.t, ok)
	p, ok := ray{on, bounce(s.down, n)}.toPlane(r3.Vec{Z: s.mirror.focalLengthMM + s.racked}, r3.Vec{Z: 1})
	require.True(s.t, ok)
	return Tube{p.X, p.Y}
}

// tracedStar returns the dark spot's offset by rays: past the edges of the glass
// where it stands, and to the edges of the mirror, along each of the two axes.
func tracedStar(t require.TestingT, scope Telescope, e, glass Tube, waves float64, focus Focus) Tube {
	light := lightOf(t, scope, e, -focus.upright()*DefocusMM(scope.FocalRatio(), waves, WavelengthNM))
	rim, edge := scope.ApertureMM/2, scope.MinorAxisMM/2
	disc := func(x, y float64) Tube {
		return light.past(light.mirror.turn.Rotate(r3.Vec{X: x, Y: y, Z: rim * rim / (4 * scope.FocalLengthMM)}))
	}
	dark := func(x, y float64) Tube {
		return light.past(r3.Vec{X: glass.X + x, Y: glass.Y + y, Z: scope.FromPrimaryMM})
	}
	off := func(spot func(x, y float64) Tube, r float64) Tube {
		return Tube{spot(r, 0).X + spot(-r, 0).X, spot(0, r).Y + spot(0, -r).Y}.Scale(0.5)
	}
	width := disc(rim, 0).Sub(disc(-rim, 0)).Len()
	return off(dark, edge).Sub(off(disc, rim)).Scale(1 / width)
}

// leftOut returns how much of an offset the formula leaves out, and of the axis
// error that comes of it: half a percent; what comes of rays from off the axis
// meeting e²/f nearer; and the square of how far the outline stands off, which
// coma feels.
func leftOut(scope Telescope, e, glass Tube, waves float64) (offset, axisMM float64) {
	o, lean, coma := scope.Obstruction(), scope.starLean(), scope.comaGain(waves)
	nearer := e.Dot(e) / scope.FocalLengthMM / DefocusMM(scope.FocalRatio(), waves, WavelengthNM)
	outline := (glass.Len() + e.Len()*lean) / (scope.ApertureMM / 2)
	square := outline * outline / (1 - o*o)
	parts := e.Len()*(coma+lean/scope.ApertureMM) + glass.Len()/scope.ApertureMM
	return (0.005+nearer)*parts + coma*e.Len()*square, (0.005 + square) * e.Len()
}

func TestTracedStarShadow(t *testing.T) {
	for _, row := range published(t, "star_shadow.out.csv") {
		v := numbers(t, row)
		require.Len(t, v, 13)
		scope := Telescope{ApertureMM: v[0], FocalLengthMM: v[1], FromPrimaryMM: v[2], MinorAxisMM: v[3]}
		e, glass, waves := Tube{v[4], v[5]}, Tube{v[6], v[7]}, v[8]
		inside, beyond := Tube{v[9], v[10]}, Tube{v[11], v[12]}
		offset, axis := leftOut(scope, e, glass, waves)
		for focus, want := range map[Focus]Tube{InsideFocus: inside, BeyondFocus: beyond} {
			near(t, want, tracedStar(t, scope, e, glass, waves, focus), 3e-6, "rays", focus, row)
			near(t, want, scope.StarOffset(e, glass, waves, focus), offset+2e-5, "formula", focus, row)
		}
		near(t, e, scope.AxisErrorFromStar(Belief{At: inside}, Belief{At: beyond}, waves).At, axis+1e-3, "axis", row)
		near(t, glass, scope.GlassFromStar(Belief{At: inside}, Belief{At: beyond}, waves).At, 0.04, "glass", row)
	}
}

// Whatever the telescope, its error and its glass: the formula is what rays do,
// half the sum is the axis error, and half the difference is the glass.
func TestBothSidesOfFocusTellTheAxisFromTheGlass(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		scope := ofRatio(rapid.Float64Range(4, 8).Draw(t, "ratio"))
		scope.MinorAxisMM = rapid.Float64Range(0.15, 0.35).Draw(t, "secondary") * scope.ApertureMM
		e := turned(Tube{X: scope.ComaFreeMM() * rapid.Float64Range(0.2, 1.5).Draw(t, "error")}, rapid.Float64Range(0, 360).Draw(t, "way"))
		glass := anyTube(t, 6)
		waves := rapid.Float64Range(4, 20).Draw(t, "waves")
		offset, within := leftOut(scope, e, glass, waves)
		seen := map[Focus]Belief{}
		for _, focus := range []Focus{InsideFocus, BeyondFocus} {
			at := tracedStar(t, scope, e, glass, waves, focus)
			apart(t, at, scope.StarOffset(e, glass, waves, focus), offset+1e-4)
			seen[focus] = Belief{At: at, Cov: Round(0.02)}
		}
		axis := scope.AxisErrorFromStar(seen[InsideFocus], seen[BeyondFocus], waves)
		apart(t, e, axis.At, within+0.001)
		assert.InDelta(t, 0.02/scope.comaGain(waves), axis.Cov.Sigma(), 1e-9, "no surer than one look")
		apart(t, glass, scope.GlassFromStar(seen[InsideFocus], seen[BeyondFocus], waves).At, offset*scope.ApertureMM+scope.starLean()*within+0.02)
	})
}

// Inside focus at f/8, ten rings out, the glass outweighs coma: the light is
// thinnest on the side away from the axis, so that one side alone would have the
// primary turned the wrong way.
func TestInsideFocusAloneTheFingerMayPointTheWrongWay(t *testing.T) {
	scope := Telescope{ApertureMM: 150, FocalLengthMM: 1200, FromPrimaryMM: 1025, MinorAxisMM: 37.5}
	e := Tube{X: 3}
	assert.Negative(t, tracedStar(t, scope, e, Tube{}, 10, InsideFocus).X)
	assert.Negative(t, scope.StarOffset(e, Tube{}, 10, InsideFocus).X)
	assert.Positive(t, scope.StarOffset(e, Tube{}, 10, BeyondFocus).X)
	look := func(focus Focus) Belief {
		off := scope.StarOffset(e, Tube{}, 10, focus)
		half := (1 - scope.Obstruction()) / 2
		finger := off.Scale(focus.upright()) // where it shows in the thinnest light
		return scope.OffsetSeen(StarLook{Thin: (half - off.Len()) / (half + off.Len()), Finger: finger}, focus)
	}
	// what is even to the eye inside says nothing, and beyond gives the side
	assert.Zero(t, look(InsideFocus).At)
	assert.Positive(t, scope.AxisErrorFromStar(look(InsideFocus), look(BeyondFocus), 10).At.X)
}

// By how much of the disc's width a millimetre of axis error moves the dark spot
// on each side of focus, and what the glass's own A/(4F) does at f/4.8.
func TestWhatAMillimetreDoesOnEachSide(t *testing.T) {
	for _, tt := range []struct {
		scope          Telescope
		e, glass       float64
		inside, beyond float64
	}{
		{Telescope{ApertureMM: 200, FocalLengthMM: 1200, FromPrimaryMM: 1007, MinorAxisMM: 50}, 1, 0, 0.0101, 0.0269},
		{Telescope{ApertureMM: 150, FocalLengthMM: 1200, FromPrimaryMM: 1025, MinorAxisMM: 37.5}, 1, 0, -0.0036, 0.0192},
		{Telescope{ApertureMM: 250, FocalLengthMM: 1200, FromPrimaryMM: 970, MinorAxisMM: 63}, 0, 63 / (4 * 4.8), 0.0131, -0.0131},
	} {
		for focus, want := range map[Focus]float64{InsideFocus: tt.inside, BeyondFocus: tt.beyond} {
			got := tracedStar(t, tt.scope, Tube{X: tt.e}, Tube{X: tt.glass}, 10, focus)
			assert.InDelta(t, want, got.X, 6e-5, "rays %s %v", focus, tt)
			got = tt.scope.StarOffset(Tube{X: tt.e}, Tube{X: tt.glass}, 10, focus)
			assert.InDelta(t, want, got.X, 6e-5, "formula %s %v", focus, tt)
		}
	}
}

func TestInsideFocusTheOpenEndIsUpright(t *testing.T) {
	scope := ofRatio(5)
	for focus, upright := range map[Focus]float64{InsideFocus: 1, BeyondFocus: -1} {
		light := lightOf(t, scope, Tube{X: 0.2}, -upright*DefocusMM(5, 10, WavelengthNM))
		finger := light.past(r3.Vec{X: 30, Y: 60, Z: 1100})
		assert.Positive(t, finger.X*upright)
		assert.Positive(t, finger.Y*upright)
		assert.Equal(t, upright, focus.upright())
	}
}

// At 10 waves a spot that coma moves by 4.5 % of the disc's width is just Strehl
// 0.80, at 20 waves 2.2 %: no far look proves a fine alignment. What looks even at
// 5 rings is about the careful allowance at every focal ratio, at 10 twice that.
func TestWhatALookAtAStarProves(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		scope := ofRatio(rapid.Float64Range(4, 10).Draw(t, "ratio"))
		scope.MinorAxisMM = 50
		assert.InDelta(t, 0.0445, scope.ComaFreeMM()*scope.comaGain(10), 2e-4)
		assert.InDelta(t, 0.0222, scope.ComaFreeMM()*scope.comaGain(20), 1e-4)
		assert.InDelta(t, 1.04, scope.StarProvesMM(5)/scope.CarefulMM(), 0.01)
		assert.InDelta(t, 2*scope.StarProvesMM(5), scope.StarProvesMM(10), 1e-9)
		assert.InDelta(t, 4*scope.StarProvesMM(5), scope.StarProvesMM(20), 1e-9)
	})
}

// What looks even on both sides leaves no more axis error than it proves,
// wherever the glass stands; on one side alone it may leave far more.
func TestEvenOnBothSidesProvesWhatItSays(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		scope := ofRatio(rapid.Float64Range(4, 8).Draw(t, "ratio"))
		scope.MinorAxisMM = 50
		waves := rapid.SampledFrom([]float64{5, 10, 20}).Draw(t, "waves")
		e, glass := anyTube(t, 3*scope.StarProvesMM(waves)), anyTube(t, 12)
		even := scope.OffsetOfSides(evenSides)
		if scope.StarOffset(e, glass, waves, InsideFocus).Len() < even && scope.StarOffset(e, glass, waves, BeyondFocus).Len() < even {
			assert.LessOrEqual(t, e.Len(), scope.StarProvesMM(waves))
		}
	})
	scope := Telescope{ApertureMM: 200, FocalLengthMM: 1200, FromPrimaryMM: 1007, MinorAxisMM: 50}
	e := Tube{X: 2 * scope.StarProvesMM(10)}
	assert.Less(t, scope.StarOffset(e, scope.GlassPlace(), 10, InsideFocus).Len(), scope.OffsetOfSides(evenSides))
}

func TestSidesOfTheDisc(t *testing.T) {
	scope := Telescope{ApertureMM: 200, FocalLengthMM: 1000, FromPrimaryMM: 800, MinorAxisMM: 50}
	assert.Zero(t, scope.OffsetOfSides(1))
	// the spot touches: half the disc less half the spot
	assert.InDelta(t, 0.5-0.125, scope.OffsetOfSides(0), 1e-12)
	off := scope.OffsetOfSides(0.6)
	assert.InDelta(t, 0.6, (0.375-off)/(0.375+off), 1e-12, "thin over thick")
	rapid.Check(t, func(t *rapid.T) {
		thin := rapid.Float64Range(0, 0.75).Draw(t, "thin")
		finger := turned(Tube{X: 90}, rapid.Float64Range(0, 360).Draw(t, "finger"))
		inside, beyond := scope.OffsetSeen(StarLook{thin, finger}, InsideFocus), scope.OffsetSeen(StarLook{thin, finger}, BeyondFocus)
		assert.InDelta(t, 1, inside.At.Dot(finger)/inside.At.Len()/finger.Len(), 1e-9, "it points where the light is thin")
		apart(t, inside.At.Scale(-1), beyond.At, 1e-12)
		assert.Greater(t, inside.At.Len(), scope.OffsetSeen(StarLook{thin + 0.04, finger}, InsideFocus).At.Len(), "thinner is worse")
	})
	for _, look := range []StarLook{{Thin: 1}, {Thin: 0.81, Finger: Tube{X: 1}}, {Thin: 0.3}} {
		assert.Zero(t, scope.OffsetSeen(look, InsideFocus).At, look)
	}
	assert.NotZero(t, scope.OffsetSeen(StarLook{0.8, Tube{X: 1}}, InsideFocus).At, "four fifths is told from even")
	even := scope.OffsetSeen(StarLook{Thin: 1}, InsideFocus)
	assert.InDelta(t, scope.StarProvesMM(5), scope.AxisErrorFromStar(even, even, 5).WithinMM(0.95), 1e-3)
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
