package virtual_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"spotward/optics"
	"spotward/optics/virtual"
)

// legs returns how far screws 0 and 1 of a mirror bring its spot to the middle,
// and where it stands between the two.
func legs(at, r, s optics.Tube) (a, b float64, between optics.Tube) {
	det := r.X*s.Y - r.Y*s.X
	a = -(at.X*s.Y - at.Y*s.X) / det
	b = -(r.X*at.Y - r.Y*at.X) / det
	return a, b, at.Add(r.Scale(a))
}

func sign(v float64) int {
	if v < 0 {
		return -1
	}
	return 1
}

// The first of two screws has done its part when the spot stands on the line
// along which the second takes it home; the second where it comes closest.
func TestTwoWatchedLegsBringItHome(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		f := virtual.Faults{ReturnMM: rapid.Float64Range(3, 11).Draw(t, "mm"), LocksEased: true}
		w := faulty(f, rapid.Uint64().Draw(t, "seed"))
		per := w.Truth().Primary.PerTurn
		a, b, between := legs(w.Truth().Spots.T, per[0], per[1])
		if between.Len() < 1 || between.Len() > 12 || math.Abs(a) < 0.05 || math.Abs(a) > 0.9 || math.Abs(b) > 0.9 {
			t.Skip("one leg would do, or leads off the face")
		}
		first := w.Watch(optics.Primary, 0, sign(a), optics.Stop{At: between, As: optics.StopBearing})
		assert.InDelta(t, a, first.Turns, 0.05)
		assert.False(t, first.Lost || first.Away)
		w.Watch(optics.Primary, 1, sign(b), optics.Stop{As: optics.StopClosest})
		assert.Less(t, w.Truth().Spots.T.Len(), 0.5)
	})
}

func TestWatchingTheWrongWay(t *testing.T) {
	w := faulty(virtual.Faults{ReturnMM: 8, LocksEased: true}, 5)
	per := w.Truth().Primary.PerTurn[0]
	wrong := sign(per.Dot(w.Truth().Spots.T))
	got := w.Watch(optics.Primary, 0, wrong, optics.Stop{As: optics.StopClosest})
	assert.True(t, got.Away)
	assert.Zero(t, got.Turns)
}

// A bearing has two ends; only the one that was named is a cue.
func TestBearingHasOneEnd(t *testing.T) {
	w := faulty(virtual.Faults{ReturnMM: 4, LocksEased: true}, 5)
	per, at := w.Truth().Primary.PerTurn[0], w.Truth().Spots.T
	// The screw takes the spot past the goal on one side; the cue stands on the other.
	nearest := at.Sub(per.Scale(at.Dot(per) / per.Dot(per)))
	way := -sign(at.Dot(per))
	got := w.Clone().Watch(optics.Primary, 0, way, optics.Stop{At: nearest, As: optics.StopBearing})
	require.InDelta(t, math.Abs(at.Dot(per)/per.Dot(per)), math.Abs(got.Turns), 0.01)
	behind := w.Clone().Watch(optics.Primary, 0, way, optics.Stop{At: nearest.Scale(-1), As: optics.StopBearing})
	assert.Greater(t, math.Abs(behind.Turns-got.Turns), 0.1)
}

// What cannot be seen is not watched; what goes out of sight ends the turn.
func TestWatchingWhatIsNotThere(t *testing.T) {
	w := faulty(virtual.Faults{ReturnMM: 20, LocksEased: true}, 5)
	got := w.Watch(optics.Primary, 0, 1, optics.Stop{As: optics.StopClosest})
	assert.True(t, got.Lost)
	assert.Zero(t, got.Turns)
	q := w.Truth().Spots.Q
	best := 0
	for i, r := range w.Truth().Primary.PerTurn {
		if math.Abs(r.Dot(q)) > math.Abs(w.Truth().Primary.PerTurn[best].Dot(q)) {
			best = i
		}
	}
	way := -sign(w.Truth().Primary.PerTurn[best].Dot(q))
	got = w.WatchOn(optics.FaceSecondary, optics.Primary, best, way, optics.Stop{As: optics.StopClosest}, optics.Tube{})
	assert.False(t, got.Lost)
	assert.Less(t, w.Truth().Spots.Q.Len(), q.Len()*0.6, "it is seen on the secondary")

	w = faulty(virtual.Faults{ReturnMM: 12, LocksEased: true}, 5)
	tt := w.Truth().Spots.T
	got = w.Watch(optics.Primary, 0, sign(w.Truth().Primary.PerTurn[0].Dot(tt)), optics.Stop{At: tt.Scale(3), As: optics.StopPoint})
	assert.True(t, got.Lost, "it left the face before its cue came")
	assert.Greater(t, w.Truth().Spots.T.Len(), 12.5)
}

// A pair on a centre bolt: ease one, take up the other until it is closest.
func TestWatchedPair(t *testing.T) {
	for seed := uint64(1); seed < 15; seed++ {
		w := faulty(virtual.Faults{SpotMM: 20}, seed)
		for range 3 {
			per, at := w.Truth().Secondary.PerTurn, w.Truth().Spots.P
			turns := balanced(per, at.Scale(-1))
			ease, take := 0, 0
			for i, by := range turns {
				if by < turns[ease] {
					ease = i
				}
				if by > turns[take] {
					take = i
				}
			}
			w.TurnExactly(optics.Secondary, ease, math.Max(-0.5, turns[ease]))
			w.Watch(optics.Secondary, take, 1, optics.Stop{As: optics.StopClosest})
			w.Snug(optics.Secondary)
		}
		assert.Less(t, w.Truth().Spots.P.Len(), 4.0, seed)
		assert.False(t, w.Truth().Secondary.Loose)
	}
}

// Eyes that judge a bearing by so many degrees stop so far from it.
func TestWatchingErrs(t *testing.T) {
	sum, n := 0.0, 0.0
	for seed := uint64(1); seed < 400; seed++ {
		w := virtual.NewWith(virtual.Builtin(), virtual.Setup{
			Faults: virtual.Faults{ReturnMM: 9, LocksEased: true},
			Sight:  virtual.Keen{Deg: 6},
		}, seed)
		per := w.Truth().Primary.PerTurn
		a, _, between := legs(w.Truth().Spots.T, per[0], per[1])
		if between.Len() < 3 || between.Len() > 9 || math.Abs(a) < 0.3 || math.Abs(a) > 0.8 {
			continue
		}
		if w.Watch(optics.Primary, 0, sign(a), optics.Stop{At: between, As: optics.StopBearing}).Lost {
			continue
		}
		at := w.Truth().Spots.T
		deg := math.Asin((at.X*between.Y-at.Y*between.X)/at.Len()/between.Len()) * 180 / math.Pi
		sum, n = sum+deg*deg, n+1
	}
	assert.Greater(t, n, 60.0)
	assert.InDelta(t, 6, math.Sqrt(sum/n), 1.5)
}

// Hands that stop short or late do so when they watch, too.
func TestWatchingHandsErr(t *testing.T) {
	sum, n := 0.0, 0.0
	for seed := uint64(1); seed < 200; seed++ {
		f := virtual.Faults{ReturnMM: 8, LocksEased: true}
		w := faulty(f, seed)
		shaky := virtual.NewWith(virtual.Builtin(), virtual.Setup{Faults: f, Hands: virtual.Hands{Turns: 0.05}}, seed)
		way := -sign(w.Truth().Primary.PerTurn[0].Dot(w.Truth().Spots.T))
		a := w.Watch(optics.Primary, 0, way, optics.Stop{As: optics.StopClosest}).Turns
		b := shaky.Watch(optics.Primary, 0, way, optics.Stop{As: optics.StopClosest}).Turns
		sum, n = sum+(b-a)*(b-a), n+1
	}
	assert.InDelta(t, 0.05, math.Sqrt(sum/n), 0.01)
}
