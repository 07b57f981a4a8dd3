package desk_test

import (
	"math"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"spotward/optics"
	"spotward/optics/virtual"
	"spotward/session"
	"spotward/session/event"
	"spotward/session/shelf"
	"spotward/views/desk"
)

// toCue comes to a told move of a single primary screw that has a stop cue,
// with somebody watching; false where this telescope has none such.
func toCue(t *testing.T, w *desk.Work) bool {
	t.Helper()
	benchUntil(t, w, session.StageHome)
	benchTyped(t, w, "watching")
	told := w.State().Told()
	return told != nil && len(told.Moves) == 1 && told.Moves[0].Stop != nil
}

func TestWatchedUntilTheCue(t *testing.T) {
	watched := 0
	for seed := range uint64(12) {
		w := begin(t, nil, "lesson-eased", seed)
		if !toCue(t, w) {
			continue
		}
		told := w.State().Told().Moves[0]
		echo, err := w.Line("")
		require.NoError(t, err)
		if !assert.Contains(t, echo, "stopped by the spot") {
			continue
		}
		watched++
		events := w.State().Events()
		last := events[len(events)-1]
		for _, ev := range events {
			if ev.Kind == event.KindTurned {
				last = ev
			}
		}
		assert.True(t, last.Watched)
		v := w.Bench.World().Sight(optics.FaceTarget).Seen
		cue := told.Stop
		switch cue.As {
		case optics.StopPoint:
			assert.InDelta(t, 0, math.Hypot(v.Right-cue.Right, v.Up-cue.Up), 4, "seed %d", seed)
		case optics.StopBearing:
			off := math.Remainder(math.Atan2(v.Up, v.Right)-math.Atan2(cue.Up, cue.Right), 2*math.Pi)
			assert.Less(t, math.Abs(off), 0.8, "seed %d", seed)
		}
	}
	assert.Greater(t, watched, 3)
}

func TestTakenUpAgainAfterWatchedTurns(t *testing.T) {
	l, err := shelf.Open(t.TempDir())
	require.NoError(t, err)
	w := begin(t, l, virtual.Usual, 4)
	benchUntil(t, w, session.StageSecondary)
	benchTyped(t, w, "watching", "")
	want := w.Bench.World().Truth()
	benchTyped(t, w, "quit")
	_, err = w.Close()
	require.NoError(t, err)
	d := &desk.Desk{Library: l, Program: "test", Now: time.Now}
	again, err := d.TakeUp(w.State().ID)
	require.NoError(t, err)
	assert.Equal(t, want, again.Bench.World().Truth())
}

func TestACueThatCannotBeSeenIsNotWatched(t *testing.T) {
	for seed := range uint64(12) {
		w := begin(t, nil, "lesson-eased", seed)
		if !toCue(t, w) {
			continue
		}
		told := w.State().Told().Moves[0]
		i, err := w.State().Index(told.Turn)
		require.NoError(t, err)
		w.Bench.World().LaserOn(false)
		before := w.Bench.World().Truth().Primary.Turns[i]
		echo, err := w.Line("")
		require.NoError(t, err)
		assert.NotContains(t, echo, "stopped by the spot")
		assert.InEpsilon(t, told.Turns, w.Bench.World().Truth().Primary.Turns[i]-before, 0.2, "by its amount")
		return
	}
	t.Fatal("no move with a cue")
}

func TestOtherWayIsTurnedTheOtherWay(t *testing.T) {
	for seed := range uint64(12) {
		w := begin(t, nil, "lesson-eased", seed)
		if !toCue(t, w) {
			continue
		}
		told := w.State().Told().Moves[0]
		i, err := w.State().Index(told.Turn)
		require.NoError(t, err)
		before := w.Bench.World().Truth().Primary.Turns[i]
		benchTyped(t, w, "other way")
		went := w.Bench.World().Truth().Primary.Turns[i] - before
		assert.InEpsilon(t, -told.Turns, went, 0.2)
		return
	}
	t.Fatal("no move with a cue")
}
