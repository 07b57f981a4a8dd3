package virtual_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"

	"spotward/optics"
	"spotward/optics/virtual"
)

// What each look shows of a fault, the spots beside it.
func TestWhatEachFinerLookShows(t *testing.T) {
	const seed = 4
	scope := virtual.Builtin()
	aligned := func(f virtual.Faults) (w *virtual.World, truth virtual.Truth) {
		w = faulty(f, seed)
		return w, w.Truth()
	}
	t.Run("nothing wrong", func(t *testing.T) {
		w, _ := aligned(virtual.Faults{})
		assert.Less(t, w.Shadow().At.Len(), 0.01)
		starShows(t, w, optics.Tube{})
		place := w.Place()
		assert.Less(t, math.Abs(place.AlongMM), 0.7)
		assert.InDelta(t, 1, place.Round, 0.03)
		assert.Less(t, place.Picture.Len(), 0.1)
		assert.False(t, place.Missing)
	})
	t.Run("a laser that points off: the shadow does not see it", func(t *testing.T) {
		w, truth := aligned(virtual.Faults{LaserSlopeRad: 2e-3})
		assert.Greater(t, truth.Spots.P.Len(), 2.0)
		assert.Less(t, w.Shadow().At.Len(), 0.01)
		starShows(t, w, optics.Tube{})
	})
	t.Run("a laser that leaves beside the axis: in full", func(t *testing.T) {
		w, truth := aligned(virtual.Faults{LaserOffsetMM: 0.6})
		assert.Less(t, truth.ErrorMM, 0.01)
		assert.InDelta(t, 1.2, w.Shadow().At.Len(), 0.02)
		starShows(t, w, optics.Tube{})
	})
	t.Run("a ring 2 mm off, both spots home", func(t *testing.T) {
		w, _ := aligned(virtual.Faults{RingOffMM: 2})
		// turn the secondary until the spot stands in the ring, and the primary
		// until the return goes down the hole
		bringHome(w)
		truth := w.Truth()
		assert.Less(t, w.Sight(optics.FacePrimary).At.Len(), 0.1)
		assert.Less(t, truth.Spots.T.Len(), 0.1)
		assert.InDelta(t, 1, truth.ErrorMM, 0.05, "half of what the ring is off")
		shadow := optics.Belief{At: w.Shadow().At}
		assert.Less(t, scope.AxisErrorFromShadow(shadow, optics.ShadowSource{}).At.Len(), 0.1, "the shadow takes the ring's word")
		starShows(t, w, truth.Spots.E)
	})
	t.Run("slipped 3 mm along its stalk", func(t *testing.T) {
		w, _ := aligned(virtual.Faults{SecondarySlipMM: 3})
		assert.InDelta(t, 3, w.Place().AlongMM, 0.4)
		assert.InDelta(t, 3, w.Truth().Spots.Outgoing.Len(), 0.01)
		w, _ = aligned(virtual.Faults{SecondarySlipMM: -3})
		assert.InDelta(t, -3, w.Place().AlongMM, 0.4)
	})
	t.Run("turned 3 degrees about the tube", func(t *testing.T) {
		w, truth := aligned(virtual.Faults{SecondaryTurnedDeg: 3})
		place := w.Place()
		assert.InDelta(t, scope.TurnedMM(3), truth.Spots.P.Y, 0.3)
		assert.Greater(t, math.Abs(place.Picture.Y), 50.0)
		assert.Less(t, math.Abs(place.Picture.X), 4.0)
		assert.True(t, place.Missing)
		assert.Less(t, math.Abs(place.AlongMM), 0.7, "the outline hardly tells")
	})
}

// starShows asks whether a star, looked at on both sides of focus, shows the axis
// error, and the glass where it belongs.
func starShows(t *testing.T, w *virtual.World, e optics.Tube) {
	t.Helper()
	scope := virtual.Builtin()
	inside, beyond := starOffset(w, 5, optics.InsideFocus), starOffset(w, 5, optics.BeyondFocus)
	assert.Less(t, scope.AxisErrorFromStar(inside, beyond, 5).At.Sub(e).Len(), 0.01+0.03*e.Len())
	assert.Less(t, scope.GlassFromStar(inside, beyond, 5).At.Sub(scope.GlassPlace()).Len(), 0.3+0.5*e.Len())
}

// starOffset returns the dark spot's offset that belongs to what a star truly
// looks like on one side of focus.
func starOffset(w *virtual.World, waves float64, focus optics.Focus) optics.Belief {
	scope := virtual.Builtin()
	star := w.Star(waves, focus)
	at := scope.FromSeen(optics.FaceCard, star.Seen)
	if focus == optics.BeyondFocus {
		at = at.Scale(-1)
	}
	return optics.Belief{At: at.Scale(scope.OffsetOfSides(star.Thin) / at.Len())}
}

// bringHome turns both mirrors of a world without hands until its spots
// are home.
func bringHome(w *virtual.World) {
	for range 6 {
		for _, m := range []optics.Mirror{optics.Secondary, optics.Primary} {
			easeLocks(w, 0.25)
			truth := w.Truth()
			cell, at := truth.Secondary, w.Sight(optics.FacePrimary).At
			if m == optics.Primary {
				cell, at = truth.Primary, truth.Spots.T
			}
			a, b := cell.PerTurn[0].Sub(cell.PerTurn[2]), cell.PerTurn[1].Sub(cell.PerTurn[2])
			det := a.X*b.Y - a.Y*b.X
			x, y := (-at.X*b.Y+at.Y*b.X)/det, (-a.X*at.Y+a.Y*at.X)/det
			for i, turns := range []float64{x, y, -x - y} {
				if turns < 0 {
					w.TurnExactly(m, i, turns)
				}
			}
			for i, turns := range []float64{x, y, -x - y} {
				if turns > 0 {
					w.TurnExactly(m, i, turns)
				}
			}
		}
	}
}

// The two opinions of the shadow, the star and the offset agree, side by side. The
// thinnest light stands where the formula says but for the square of the offset.
func TestTheOtherOpinionOfAStar(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		scope := virtual.Builtin()
		w := faulty(virtual.Faults{ReturnMM: rapid.Float64Range(0.5, 3).Draw(t, "return")}, rapid.Uint64Range(0, 1000).Draw(t, "seed"))
		e, waves := w.Truth().Spots.E, rapid.Float64Range(5, 12).Draw(t, "waves")
		for _, focus := range []optics.Focus{optics.InsideFocus, optics.BeyondFocus} {
			star := w.Star(waves, focus)
			assert.Equal(t, focus, star.Focus)
			want := scope.StarOffset(e, scope.GlassPlace(), waves, focus)
			if star.Thin > 0.05 {
				got := starOffset(w, waves, focus).At
				assert.Less(t, got.Sub(want).Len(), want.Len()*(0.005+want.Len())+0.0005, "%s %v %v", focus, got, want)
			}
		}
		inside, beyond := starOffset(w, waves, optics.InsideFocus), starOffset(w, waves, optics.BeyondFocus)
		if w.Star(waves, optics.InsideFocus).Thin > 0.05 && w.Star(waves, optics.BeyondFocus).Thin > 0.05 {
			assert.Less(t, scope.AxisErrorFromStar(inside, beyond, waves).At.Sub(e).Len(), 0.05*e.Len()+0.01)
		}
		shadow := scope.AxisErrorFromShadow(optics.Belief{At: w.Shadow().At}, optics.ShadowSource{})
		assert.InDelta(t, 0, shadow.At.Sub(e).Len(), 0.02)
	})
}

// With a spot left on the primary half the sum of both sides is still the axis
// error.
func TestAStarDoesNotMindTheSpotOnThePrimary(t *testing.T) {
	scope := virtual.Builtin()
	for seed := range uint64(20) {
		w := faulty(virtual.Faults{SpotMM: 6, ReturnMM: 2}, seed)
		e := w.Truth().Spots.E
		got := scope.AxisErrorFromStar(starOffset(w, 8, optics.InsideFocus), starOffset(w, 8, optics.BeyondFocus), 8).At
		assert.Less(t, got.Sub(e).Len(), 0.03*e.Len()+0.03, "%v %v", got, e)
	}
}

// On a slow telescope, inside focus alone, the light is thinnest on the side away
// from the axis: whoever turned for it would turn the wrong way.
func TestInsideFocusAloneAStarPointsTheWrongWay(t *testing.T) {
	slow := changed(func(t *optics.Telescope) {
		t.ApertureMM, t.FocalLengthMM, t.FromPrimaryMM, t.MinorAxisMM, t.HoleFromAxisMM = 150, 1200, 1025, 37.5, 190
	})
	wrong := 0
	for seed := range uint64(12) {
		w := virtual.NewWith(slow, virtual.Setup{Faults: virtual.Faults{ReturnMM: 10}}, seed)
		e := w.Truth().Spots.E
		inside := slow.FromSeen(optics.FaceCard, w.Star(10, optics.InsideFocus).Seen)
		beyond := slow.FromSeen(optics.FaceCard, w.Star(10, optics.BeyondFocus).Seen)
		if inside.Dot(e) < 0 {
			wrong++
		}
		assert.Negative(t, beyond.Dot(e), "upside down beyond focus: the finger shows away from the axis")
	}
	assert.Greater(t, wrong, 9)
}

func TestEyesOnShadowAndStar(t *testing.T) {
	w := virtual.NewWith(virtual.Builtin(), virtual.Setup{Faults: virtual.Faults{ReturnMM: 6}}, 3)
	truth, read := w.Shadow(), w.ShadowEyes()
	assert.Equal(t, virtual.Place, read.Told)
	assert.InDelta(t, truth.Seen.Len(), read.MM, 0.5)
	for _, focus := range []optics.Focus{optics.InsideFocus, optics.BeyondFocus} {
		star, seen := w.Star(5, focus), w.StarEyes(5, focus)
		assert.InDelta(t, star.Thin, seen.Thin, 0.051)
		assert.InDelta(t, 0, math.Remainder(star.Hour-seen.Hour, 12), 0.26)
	}
	// what eyes cannot tell from even
	near := virtual.NewWith(virtual.Builtin(), virtual.Setup{Faults: virtual.Faults{ReturnMM: 0.3}}, 3)
	star := near.Star(5, optics.BeyondFocus)
	assert.Less(t, star.Thin, 0.97)
	assert.Greater(t, star.Thin, 0.8)
	assert.Equal(t, 1.0, near.StarEyes(5, optics.BeyondFocus).Thin)
	w.LaserOn(false)
	assert.Equal(t, virtual.LaserDark, w.Shadow().Unseen)
	assert.Equal(t, virtual.CantSee, w.ShadowEyes().Told)
	far := faulty(virtual.Faults{ReturnMM: 20}, 3)
	assert.Equal(t, virtual.Beyond, far.Shadow().Unseen)
	assert.Equal(t, virtual.Gone, far.ShadowEyes().Told)
}
