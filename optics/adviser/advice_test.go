package adviser

import (
	"encoding/json"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"spotward/optics"
)

func TestAdviceAmountsAreWhatHandsCanMake(t *testing.T) {
	all := toldGrid.amounts()
	assert.Equal(t, 1.0/64, all[0])
	assert.Equal(t, float64(mostTurns), all[len(all)-1])
	rapid.Check(t, func(r *rapid.T) {
		n := rapid.Float64Range(-3, 3).Draw(r, "turns")
		g := OnGrid(n)
		assert.Equal(r, -g, OnGrid(-n))
		if g != 0 {
			assert.Contains(r, all, math.Abs(g))
		}
		if math.Abs(n) <= 1 {
			assert.InDelta(r, n, g, 1.0/32+1e-9)
		}
	})
}

func TestAdviseLeavesAloneWhatIsInside(t *testing.T) {
	k := NewTracker(threeScrews(), optics.Secondary, nil)
	k, _ = k.Look(at(1, 0))
	_, more := Advise(k, optics.Goal{InsideMM: 2}, Options{})
	assert.False(t, more)
	_, more = Advise(k, optics.Goal{At: optics.Tube{X: 9, Y: 0}, InsideMM: 2}, Options{})
	assert.True(t, more)
}

// A spot on the line of one known screw goes home by that screw, the right way,
// by about the right amount.
func TestAdviseTurnsTheRightScrewTheRightWay(t *testing.T) {
	for _, m := range []optics.Mirror{optics.Secondary, optics.Primary} {
		scope := threeScrews()
		for i, r := range scope.NominalResponse(m) {
			k := NewTracker(scope, m, nil)
			far := r.Scale(0.5)
			k, _ = k.Look(at(far.X, far.Y))
			a, more := Advise(k, optics.Goal{InsideMM: 2}, Options{})
			require.True(t, more)
			require.Len(t, a.Moves, 1)
			assert.Equal(t, Move{Mirror: m, Screw: i, Turns: a.Moves[0].Turns, Stop: a.Moves[0].Stop}, a.Moves[0])
			assert.InDelta(t, -0.5, a.Moves[0].Turns, 0.15)
			assert.Greater(t, a.Trust, 0.8)
			assert.Less(t, a.After.Len(), far.Len()/2)
		}
	}
}

func TestAdviseForFourScrewsTurnsOppositeOnes(t *testing.T) {
	scope := threeScrews()
	scope.Primary.Screws, scope.Primary.Locks = 4, 0
	k := NewTracker(scope, optics.Primary, nil)
	k, _ = k.Look(at(8, 6))
	for _, o := range []Options{{}, {Watching: true}} {
		a, _ := Advise(k, optics.Goal{InsideMM: 1}, o)
		require.Len(t, a.Moves, 2)
		assert.Equal(t, GroupPair, a.Group)
		assert.Equal(t, 2, max(a.Moves[0].Screw, a.Moves[1].Screw)-min(a.Moves[0].Screw, a.Moves[1].Screw))
		assert.InDelta(t, 0, a.Moves[0].Turns+a.Moves[1].Turns, 1e-12)
	}
}

func TestAdviseEasesBeforeItTakesUp(t *testing.T) {
	scope := threeScrews()
	scope.Secondary.Kind = optics.PushPull
	k := NewTracker(scope, optics.Secondary, nil)
	k, _ = k.Look(at(20, 15))
	for _, o := range []Options{{}, {Watching: true}} {
		a, _ := Advise(k, optics.Goal{InsideMM: 2}, o)
		require.Len(t, a.Moves, 2)
		assert.Less(t, a.Moves[0].Turns, 0.0, "anticlockwise eases")
		end := optics.Tube{X: 20, Y: 15}
		for _, m := range a.Moves {
			end = end.Add(scope.NominalResponse(optics.Secondary)[m.Screw].Scale(m.Turns))
		}
		assert.Less(t, end.Len(), 20.0, "it comes nearer")
		assert.InDelta(t, 0, a.Moves[0].Turns+a.Moves[1].Turns, 1e-12)
		assert.Nil(t, a.Moves[0].Stop)
		assert.NotNil(t, a.Moves[1].Stop)
	}
}

// The first leg ends on the line along which the second brings the spot home.
func TestAdviseWatchedLegsMeetAtTheGoal(t *testing.T) {
	k := NewTracker(threeScrews(), optics.Primary, nil)
	k, _ = k.Look(at(-7, 4))
	a, _ := Advise(k, optics.Goal{InsideMM: 1}, Options{Watching: true})
	require.Len(t, a.Moves, 1)
	require.Equal(t, optics.StopBearing, a.Moves[0].Stop.As)
	require.Len(t, a.Then, 1)
	assert.NotEqual(t, a.Moves[0].Screw, a.Then[0].Screw)
	assert.Equal(t, optics.StopClosest, a.Then[0].Stop.As)
	assert.Less(t, a.Then[0].Stop.At.Len(), 0.5)
}

func TestAdviseWholeMoveTurnsAllThatIsNeeded(t *testing.T) {
	k := NewTracker(threeScrews(), optics.Primary, nil)
	k, _ = k.Look(at(-7, 4))
	a, _ := Advise(k, optics.Goal{InsideMM: 1}, Options{Whole: true})
	require.Equal(t, GroupLegs, a.Group)
	require.Len(t, a.Moves, 2)
	assert.Less(t, a.After.Len(), 1.0)
	assert.Equal(t, optics.StopBearing, a.Moves[0].Stop.As)
	assert.Equal(t, optics.StopClosest, a.Moves[1].Stop.As)
}

func TestAGuessBeginsWithATouch(t *testing.T) {
	scope := threeScrews()
	scope.Primary.PlacesKnown = optics.Unknown
	k := NewTracker(scope, optics.Primary, nil)
	k, _ = k.Look(at(-7, 4))
	a, _ := Advise(k, optics.Goal{InsideMM: 1}, Options{Watching: true, Ways: true})
	require.Len(t, a.Moves, 1)
	assert.True(t, a.Learning)
	assert.True(t, a.Touch)
	require.NotNil(t, a.Moves[0].Stop)

	// It went at right angles to the guess: the move is another, and no guess.
	touch := []Move{{Mirror: optics.Primary, Screw: a.Moves[0].Screw, Turns: math.Copysign(TouchTurns(optics.Primary), a.Moves[0].Turns)}}
	guess := k.Likely(touch)
	way := optics.Tube{X: -guess.Y, Y: guess.X}
	k = k.Turn(touch, ByCue).Went(touch, way, 0.4)
	went := k.Likely(touch)
	assert.Greater(t, went.Dot(way)/way.Len()/went.Len(), math.Cos(0.4))
	assert.Less(t, k.AsideRad(touch), math.Pi/4)
}

// What one session learnt lets the next begin as if the scope had been
// measured, through JSON and back, whatever its file says.
func TestLearntCarriesOver(t *testing.T) {
	w := newWorld(3, 3, trained)
	file := w.scope
	nothingKnown(&file)
	truth := w.response(optics.Secondary)
	k := NewTracker(file, optics.Secondary, nil)
	z, _ := w.lookAt(optics.Secondary)
	k, _ = k.Look(z)
	for i := range 9 {
		n := []float64{0.25, -0.25}[i%2]
		w.turn(optics.Secondary, i%3, n)
		k = k.Turn([]Move{{Mirror: optics.Secondary, Screw: i % 3, Turns: n}}, ByAmount)
		z, _ = w.lookAt(optics.Secondary)
		k, _ = k.Look(z)
	}
	b, err := json.Marshal(k.Learnt())
	require.NoError(t, err)
	var learnt Learnt
	require.NoError(t, json.Unmarshal(b, &learnt))
	next := NewTracker(file, optics.Secondary, &learnt)
	assert.False(t, next.Seen())
	for i, r := range truth.PerTurn {
		assert.InDelta(t, 0, next.PerTurn(i).At.Sub(r).Len()/r.Len(), 0.4)
	}
}

func TestParkGoalIsOppositeToThePull(t *testing.T) {
	k := NewTracker(threeScrews(), optics.Primary, nil)
	k, _ = k.Look(at(1, 0))
	pull := optics.Tube{X: 4, Y: -3}
	for range 4 {
		k = k.LockTurn(1, 0.25)
		spot := optics.Tube{X: 1, Y: 0}.Add(pull.Scale(k.lock[1]))
		k, _ = k.Look(at(spot.X, spot.Y))
	}
	assert.InDelta(t, pull.X, k.LockPull(1).At.X, 1.5)
	assert.InDelta(t, pull.Y, k.LockPull(1).At.Y, 1.5)
	g := ParkGoal(k, optics.Goal{InsideMM: 1}, []float64{0, 0.5, 0})
	assert.InDelta(t, -k.LockPull(1).At.X/2, g.At.X, 1e-9)
	assert.InDelta(t, -k.LockPull(1).At.Y/2, g.At.Y, 1e-9)
	assert.Equal(t, 1.0, g.InsideMM)
}
