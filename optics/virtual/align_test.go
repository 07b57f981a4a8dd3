package virtual_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"spotward/optics"
	"spotward/optics/virtual"
)

// balanced returns the turns, summing to nothing, that move the spot by want:
// least squares over what each screw does to it. For equal spacing they are
// the least turns.
func balanced(per []optics.Tube, want optics.Tube) []float64 {
	n := float64(len(per))
	mean := optics.Tube{}
	for _, r := range per {
		mean = mean.Add(r.Scale(1 / n))
	}
	var xx, xy, yy float64
	off := make([]optics.Tube, len(per))
	for i, r := range per {
		off[i] = r.Sub(mean)
		xx, xy, yy = xx+off[i].X*off[i].X, xy+off[i].X*off[i].Y, yy+off[i].Y*off[i].Y
	}
	det := xx*yy - xy*xy
	k := optics.Tube{X: (yy*want.X - xy*want.Y) / det, Y: (xx*want.Y - xy*want.X) / det}
	turns := make([]float64, len(per))
	for i := range per {
		turns[i] = off[i].Dot(k)
	}
	return turns
}

// bring turns a mirror's screws, the eased ones first, in bites of half a turn,
// until its spot stands within mm of goal; it returns how often it set to.
func bring(t *testing.T, w *virtual.World, m optics.Mirror, goal optics.Tube, mm float64) int {
	t.Helper()
	for round := range 20 {
		tr := w.Truth()
		require.NoError(t, tr.Err)
		cell := tr.Primary
		if m == optics.Secondary {
			cell = tr.Secondary
		}
		off := goal.Sub(watched(t, w, m))
		if off.Len() < mm {
			return round
		}
		turns := balanced(cell.PerTurn, off)
		most := 0.0
		for _, by := range turns {
			most = math.Max(most, math.Abs(by))
		}
		for _, sense := range []float64{-1, 1} {
			for i, by := range turns {
				if by*sense <= 0 {
					continue
				}
				got := w.Turn(m, i, by*math.Min(1, 0.5/most))
				if got.Felt == virtual.Stuck && m == optics.Primary {
					w.TurnLockExactly(i, -0.125)
				}
			}
		}
		w.Knock(m)
	}
	t.Fatalf("%s is still %v off", m, goal.Sub(watched(t, w, m)))
	return 0
}

// tighten brings each lock to a bite, with the spot parked against the pull.
func tighten(t *testing.T, w *virtual.World, bite float64) {
	t.Helper()
	tr := w.Truth().Primary
	park := optics.Tube{}
	for i, pull := range tr.Pull {
		park = park.Sub(pull.Scale(bite - math.Max(0, tr.Bite[i])))
	}
	bring(t, w, optics.Primary, park, 1)
	w.Snug(optics.Primary)
	for i := range tr.Bite {
		w.TurnLockExactly(i, bite-w.Truth().Primary.Bite[i])
	}
}

// Somebody who knows what each screw does, with the hands of the level, brings
// every telescope home and finds it so after the swing.
func TestEveryTelescopeCanBeAligned(t *testing.T) {
	scopes := map[string]optics.Telescope{
		"built in": virtual.Builtin(),
		"bare":     {ApertureMM: 150, FocalLengthMM: 750, FromPrimaryMM: 560, HoleFromAxisMM: 200},
		"four screws, pushing": changed(func(t *optics.Telescope) {
			t.Secondary.Screws, t.Primary.Screws, t.Primary.ClockwisePulls, t.Primary.Locks = 4, 4, false, 4
		}),
		"large and fast, flat face": changed(func(t *optics.Telescope) {
			t.ApertureMM, t.FocalLengthMM, t.FromPrimaryMM, t.HoleFromAxisMM = 400, 1600, 1320, 290
			t.MinorAxisMM, t.InnerRadiusMM, t.SkyEndMM, t.Primary.CircleMM = 80, 215, 1700, 150
			t.Secondary.Kind, t.Target.Flat = optics.Sprung, true
		}),
	}
	for name, scope := range scopes {
		for _, level := range allLevels {
			rounds := [2]int{}
			const seeds = 12
			for seed := uint64(1); seed <= seeds; seed++ {
				w := virtual.New(scope, level, seed)
				rounds[0] += bring(t, w, optics.Secondary, w.Truth().Ring, 2)
				w.Snug(optics.Secondary)
				easeLocks(w, 0.25)
				rounds[1] += bring(t, w, optics.Primary, optics.Tube{}, 1.5)
				tighten(t, w, 0.2)
				w.Swing() // a mirror that had not settled does so now
				bring(t, w, optics.Secondary, w.Truth().Ring, 2)
				w.Snug(optics.Secondary)
				easeLocks(w, 0.3)
				tighten(t, w, 0.2)
				before := w.Truth().Spots
				w.Swing()
				after := w.Truth()
				assert.Less(t, after.Spots.P.Sub(before.P).Len()+after.Spots.T.Sub(before.T).Len(), 1.0,
					"%s, %s %d: still loose", name, level, seed)
				assert.Less(t, after.Spots.T.Len(), 3.0, "%s, %s %d", name, level, seed)
				assert.Less(t, after.Spots.P.Len(), 5.0, "%s, %s %d", name, level, seed)
			}
			t.Logf("%s, %s: %.1f and %.1f rounds", name, level, float64(rounds[0])/seeds, float64(rounds[1])/seeds)
		}
	}
}
