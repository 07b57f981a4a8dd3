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
		assert.InDelta(t, 1, w.Star(5).Thin, 1e-3)
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
		assert.InDelta(t, 1, w.Star(5).Thin, 1e-3)
	})
	t.Run("a laser that leaves beside the axis: in full", func(t *testing.T) {
		w, truth := aligned(virtual.Faults{LaserOffsetMM: 0.6})
		assert.Less(t, truth.ErrorMM, 0.01)
		assert.InDelta(t, 1.2, w.Shadow().At.Len(), 0.02)
		assert.InDelta(t, 1, w.Star(5).Thin, 1e-3)
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
		star := w.Star(5)
		assert.Less(t, star.Thin, 0.85)
		got := scope.StarBelief(star.Thin, scope.FromSeen(optics.FaceCard, star.Seen), 5)
		assert.Less(t, got.At.Sub(truth.Spots.E).Len(), 0.1, "and the star does not")
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

// The two opinions of the shadow, the star and the offset agree.
func TestTheOtherOpinionOfAStar(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		scope := virtual.Builtin()
		w := faulty(virtual.Faults{ReturnMM: rapid.Float64Range(0.5, 6).Draw(t, "return")}, rapid.Uint64Range(0, 1000).Draw(t, "seed"))
		e, waves := w.Truth().Spots.E, rapid.Float64Range(5, 12).Draw(t, "waves")
		star := w.Star(waves)
		off := scope.OffsetOfSides(star.Thin)
		toward := scope.FromSeen(optics.FaceCard, star.Seen)
		if star.Thin > 0 {
			assert.InDelta(t, e.Len(), scope.AxisErrorFromStar(optics.Belief{At: optics.Tube{X: off}}, waves, optics.ByEdges).At.X, 0.01)
		}
		assert.InDelta(t, 1, toward.Dot(e)/toward.Len()/e.Len(), 1e-9)
		shadow := scope.AxisErrorFromShadow(optics.Belief{At: w.Shadow().At}, optics.ShadowSource{})
		assert.InDelta(t, 0, shadow.At.Sub(e).Len(), 0.02)
	})
}

func TestEyesOnShadowAndStar(t *testing.T) {
	w := virtual.NewWith(virtual.Builtin(), virtual.Setup{Faults: virtual.Faults{ReturnMM: 6}}, 3)
	truth, read := w.Shadow(), w.ShadowEyes()
	assert.Equal(t, virtual.Place, read.Told)
	assert.InDelta(t, truth.Seen.Len(), read.MM, 0.5)
	star, seen := w.Star(5), w.StarEyes(5)
	assert.InDelta(t, star.Thin, seen.Thin, 0.051)
	assert.InDelta(t, 0, math.Remainder(star.Hour-seen.Hour, 12), 0.26)
	w.LaserOn(false)
	assert.Equal(t, virtual.LaserDark, w.Shadow().Unseen)
	assert.Equal(t, virtual.CantSee, w.ShadowEyes().Told)
	far := faulty(virtual.Faults{ReturnMM: 20}, 3)
	assert.Equal(t, virtual.Beyond, far.Shadow().Unseen)
	assert.Equal(t, virtual.Gone, far.ShadowEyes().Told)
}
