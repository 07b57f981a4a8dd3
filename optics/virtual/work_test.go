package virtual_test

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"

	"spotward/optics"
	"spotward/optics/virtual"
)

func TestTurnAndTurnBackComesBackWithinThePlay(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		seed := rapid.Uint64Range(1, 400).Draw(t, "seed")
		w := virtual.NewWith(changed(func(s *optics.Telescope) { s.Secondary.Kind = optics.Sprung }),
			virtual.Setup{Faults: virtual.Faults{SpotMM: 15, ReturnMM: 9, PlayTurns: 0.03, GainSpread: 0.1, LockPull: 0.45}}, seed)
		easeLocks(w, 0.5)
		m := rapid.SampledFrom(bothMirrors).Draw(t, "mirror")
		i := rapid.IntRange(0, 2).Draw(t, "screw")
		by := rapid.Float64Range(-1, 1).Draw(t, "turns")
		truth := w.Truth()
		before, per := truth.Spots.T, truth.Primary.PerTurn[i]
		if m == optics.Secondary {
			before, per = truth.Spots.P, truth.Secondary.PerTurn[i]
		}
		w.TurnExactly(m, i, by)
		w.TurnExactly(m, i, -by)
		after := w.Truth().Spots.T
		if m == optics.Secondary {
			after = w.Truth().Spots.P
		}
		assert.LessOrEqual(t, after.Sub(before).Len(), 0.031*per.Len()*1.1)
	})
}

// What has been turned truly, turned again on a second telescope, leads to the
// same place, whatever the hands, and however often anybody looked.
func TestReplayOfTrueTurns(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		level := rapid.SampledFrom(allLevels).Draw(t, "level")
		seed := rapid.Uint64Range(1, 200).Draw(t, "seed")
		w, again := virtual.New(virtual.Builtin(), level, seed), virtual.New(virtual.Builtin(), level, seed)
		for range rapid.IntRange(1, 12).Draw(t, "acts") {
			m := rapid.SampledFrom(bothMirrors).Draw(t, "mirror")
			i := rapid.IntRange(0, 2).Draw(t, "screw")
			by := rapid.Float64Range(-0.7, 0.7).Draw(t, "turns")
			switch rapid.IntRange(0, 4).Draw(t, "act") {
			case 0:
				lock := w.TurnLock(i, by)
				again.TurnLockExactly(lock.Screw, lock.Turns)
			case 1:
				w.Swing()
				again.Swing()
			case 2:
				w.Eyes(optics.FacePrimary)
				turned := w.Watch(m, i, 1, optics.Stop{As: optics.StopClosest})
				again.TurnExactly(turned.Mirror, turned.Screw, turned.Turns)
			default:
				turned := w.Turn(m, i, by)
				again.TurnExactly(turned.Mirror, turned.Screw, turned.Turns)
			}
		}
		a, b := w.Truth().Spots, again.Truth().Spots
		assert.InDelta(t, 0, a.P.Sub(b.P).Len(), 1e-9)
		assert.InDelta(t, 0, a.T.Sub(b.T).Len(), 1e-9)
	})
}

func TestCloneGoesItsOwnWay(t *testing.T) {
	w := virtual.New(virtual.Builtin(), virtual.Usual, 2)
	before := w.Truth()
	c := w.Clone()
	c.TurnLockExactly(0, -0.5)
	c.TurnExactly(optics.Primary, 0, -0.5)
	c.TurnExactly(optics.Secondary, 1, -0.5)
	c.Swing()
	assert.Equal(t, before, w.Truth())
	assert.NotEqual(t, before.Spots, c.Truth().Spots)
}

func TestNothingTurnsThatIsNotThere(t *testing.T) {
	w := virtual.New(virtual.Builtin(), virtual.Easy, 2)
	before := w.Truth().Spots
	for _, i := range []int{-1, 3, 99} {
		assert.Zero(t, w.TurnExactly(optics.Primary, i, 1).Turns)
		assert.Zero(t, w.TurnLockExactly(i, 1).Turns)
	}
	assert.Equal(t, before, w.Truth().Spots)
}

// Hands: the spread that was asked for, and one in twenty the other way.
func TestHandsErr(t *testing.T) {
	const n = 2000
	w := virtual.NewWith(virtual.Builtin(), virtual.Setup{Hands: virtual.Hands{Part: 0.1, OtherWay: 0.05}}, 8)
	easeLocks(w, 0.5)
	sum, squares, other := 0.0, 0.0, 0.0
	for k := range n {
		by := 0.25
		if k%2 == 1 {
			by = -by
		}
		c := w.Clone()
		done := c.Turn(optics.Primary, 0, by).Turns / by
		w.TurnExactly(optics.Primary, 0, by)
		if done < 0 {
			other++
			continue
		}
		sum += done
		squares += done * done
	}
	mean := sum / (n - other)
	assert.InDelta(t, 1, mean, 0.01)
	assert.InDelta(t, 0.01, squares/(n-other)-mean*mean, 0.001)
	assert.InDelta(t, 0.05, other/n, 0.015)
}

// A key that slips leaves half a turn undone, and the hand knows; a screw taken
// for its neighbour is told by nothing but what it does.
func TestSlipsAndWrongScrews(t *testing.T) {
	w := virtual.NewWith(virtual.Builtin(), virtual.Setup{Hands: virtual.Hands{Slips: 1}}, 8)
	easeLocks(w, 0.5)
	got := w.Turn(optics.Primary, 0, 0.5)
	assert.Equal(t, virtual.Slipped, got.Felt)
	assert.InDelta(t, 0.25, got.Turns, 1e-12)
	assert.InDelta(t, 0.5, got.Meant, 1e-12)

	w = virtual.NewWith(virtual.Builtin(), virtual.Setup{Hands: virtual.Hands{WrongScrew: 1}}, 8)
	easeLocks(w, 0.5)
	assert.Equal(t, 1, w.Turn(optics.Primary, 0, 0.5).Screw)
	assert.Equal(t, 0, w.Turn(optics.Primary, 2, 0.5).Screw)
	assert.Equal(t, 0, w.Watch(optics.Primary, 0, 1, optics.Stop{As: optics.StopClosest}).Screw, "a screw that is watched is the right one")
}

func TestLevels(t *testing.T) {
	for _, l := range allLevels {
		got, err := virtual.ParseLevel(string(l))
		assert.NoError(t, err)
		assert.Equal(t, l, got)
	}
	_, err := virtual.ParseLevel("Easy")
	assert.EqualError(t, err, `unknown level "Easy": easy, usual or hard`)
}

// The same telescope on every machine. What stands here was written down once
// from this program: it shows a change, not that either was right.
func TestSameSeedSameTelescope(t *testing.T) {
	golden := map[string]string{
		"easy 1":  "4:30 18, -0.1151, p 2.105 -20.553, t 10.034 -33.871",
		"easy 2":  "9:00 15, -0.1278, p -17.654 5.121, t -28.552 12.046",
		"usual 1": "4:30 52, -0.1051, p 12.277 -50.865, t 40.636 -84.619",
		"usual 2": "9:00 41, -0.1306, p -43.288 20.498, t -70.040 43.723",
		"hard 1":  "11:30 50, 0.0872, p 20.897 51.185, t 52.416 84.928",
		"hard 2":  "2:00 37, -0.1378, p 66.728 1.854, t 91.930 19.704",
	}
	for _, level := range allLevels {
		for seed := uint64(1); seed <= 2; seed++ {
			w := virtual.New(virtual.Builtin(), level, seed)
			first := w.Eyes(optics.FacePrimary).String()
			turned := w.Turn(optics.Secondary, 1, -0.125).Turns
			w.Reseat()
			w.Swing()
			tr := w.Truth()
			got := fmt.Sprintf("%s, %.4f, p %.3f %.3f, t %.3f %.3f",
				first, turned, tr.Spots.P.X, tr.Spots.P.Y, tr.Spots.T.X, tr.Spots.T.Y)
			assert.Equal(t, golden[fmt.Sprint(level, " ", seed)], got, "%s %d", level, seed)
		}
	}
}
