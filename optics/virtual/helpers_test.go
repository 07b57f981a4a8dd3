package virtual_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"spotward/optics"
	"spotward/optics/virtual"
)

var (
	bothMirrors = []optics.Mirror{optics.Primary, optics.Secondary}
	allFaces    = []optics.Face{optics.FacePrimary, optics.FaceSecondary, optics.FaceMouth, optics.FaceTarget, optics.FaceCard}
	allLevels   = []virtual.Level{virtual.Easy, virtual.Usual, virtual.Hard}
)

// faulty returns the built-in telescope with certain faults, in hands and eyes
// that make no errors.
func faulty(f virtual.Faults, seed uint64) *virtual.World {
	return virtual.NewWith(virtual.Builtin(), virtual.Setup{Faults: f}, seed)
}

// without returns the built-in telescope changed.
func changed(change func(*optics.Telescope)) optics.Telescope {
	t := virtual.Builtin()
	change(&t)
	return t
}

func assertTube(t *testing.T, want, got optics.Tube, within float64, msg ...any) {
	t.Helper()
	assert.InDelta(t, want.X, got.X, within, msg...)
	assert.InDelta(t, want.Y, got.Y, within, msg...)
}

func easeLocks(w *virtual.World, turns float64) {
	for i := range w.Truth().Primary.Bite {
		w.TurnLockExactly(i, -turns)
	}
}

// turnPair eases a screw and takes up another by as much.
func turnPair(w *virtual.World, m optics.Mirror, ease, take int, turns float64) {
	w.TurnExactly(m, ease, -turns)
	w.TurnExactly(m, take, turns)
}

// watched returns the true place of the spot that belongs to a mirror.
func watched(t *testing.T, w *virtual.World, m optics.Mirror) optics.Tube {
	t.Helper()
	tr := w.Truth()
	require.NoError(t, tr.Err)
	if m == optics.Primary {
		return tr.Spots.T
	}
	return tr.Spots.P
}

// hourOf returns the clock position of something seen, 0 ≤ h < 12.
func hourOf(s optics.Seen) float64 {
	return math.Mod(math.Atan2(s.Right, s.Up)*6/math.Pi+12, 12)
}
