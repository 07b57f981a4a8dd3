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

// The spot flares bright on the ring; inside, and outside, it is dim: bright is
// not home.
func TestSpotFlaresOnTheRing(t *testing.T) {
	cases := []struct {
		mm           float64
		flares, in   bool
		told         virtual.Told
		brighterThan float64
	}{
		{0.5, false, true, virtual.Dead, 0}, // nothing under 0.7 mm is told from the middle
		{1.5, false, true, virtual.Place, 0},
		{3, false, true, virtual.Place, 0},
		{4.4, true, false, virtual.OnRing, 0.4}, // its middle inside, half of it on the ring
		{6.2, true, false, virtual.OnRing, 0.9},
		{12, false, false, virtual.Place, 0},
	}
	for _, c := range cases {
		w := faulty(virtual.Faults{SpotMM: c.mm}, 2)
		v := w.Sight(optics.FacePrimary)
		assert.True(t, v.Visible)
		assert.Equal(t, c.flares, v.OnRing, c.mm)
		assert.Equal(t, c.in, v.InRing, c.mm)
		assert.Equal(t, c.told, w.Eyes(optics.FacePrimary).Told, c.mm)
		assert.Greater(t, v.Bright, c.brighterThan, c.mm)
		if !c.flares {
			assert.Less(t, v.Bright, 0.35, c.mm)
		}
	}
}

// First-timers say "inside" and no distance.
func TestVagueEyes(t *testing.T) {
	s := virtual.Setup{Faults: virtual.Faults{SpotMM: 2.5}, Sight: virtual.Keen{Vague: true}}
	assert.Equal(t, virtual.InRing, virtual.NewWith(virtual.Builtin(), s, 2).Eyes(optics.FacePrimary).Told)
	s.Faults.SpotMM = 12
	assert.Equal(t, virtual.Place, virtual.NewWith(virtual.Builtin(), s, 2).Eyes(optics.FacePrimary).Told)
}

// Beside the mirror the spot is on the wall of the tube, and nothing returns.
func TestOffTheMirror(t *testing.T) {
	w := faulty(virtual.Faults{SpotMM: 108}, 2)
	v := w.Sight(optics.FacePrimary)
	assert.True(t, v.Wall && v.Visible)
	assert.Equal(t, virtual.OnWall, w.Eyes(optics.FacePrimary).Told)
	for _, f := range allFaces[1:] {
		assert.Equal(t, virtual.Gone, w.Eyes(f).Told, f)
	}
}

// A laser that misses the secondary lights nothing.
func TestBesideTheSecondary(t *testing.T) {
	w := faulty(virtual.Faults{HolderSlopeRad: 0.14}, 2)
	assert.Equal(t, virtual.NoBeam, w.Sight(optics.FacePrimary).Unseen)
	assert.Equal(t, virtual.Gone, w.Eyes(optics.FacePrimary).Told)
}

// A dull paper ring keeps the beam: gone, with nothing wrong.
func TestPaperRingSwallowsTheBeam(t *testing.T) {
	at := func(f virtual.Faults) virtual.Sight { return faulty(f, 2).Sight(optics.FaceTarget) }
	assert.True(t, at(virtual.Faults{SpotMM: 6.2}).Visible)
	assert.Equal(t, virtual.Dim, at(virtual.Faults{SpotMM: 6.2, RingSwallows: true}).Unseen)
	assert.True(t, at(virtual.Faults{SpotMM: 2, ReturnMM: 6, RingSwallows: true}).Visible)
}

// "Vanished" in a hole of 3 mm bounds the return spot to some 2.5 mm; the side
// that is still brighter is told down to 0.7 mm.
func TestDownTheHole(t *testing.T) {
	cases := []struct {
		mm           float64
		home, uneven bool
	}{{0, true, false}, {0.5, true, false}, {0.9, true, true}, {2, true, true}, {2.9, false, false}, {5, false, false}}
	for _, c := range cases {
		w := faulty(virtual.Faults{ReturnMM: c.mm}, 11)
		v, r := w.Sight(optics.FaceTarget), w.Eyes(optics.FaceTarget)
		assert.Equal(t, c.home, v.InHole, c.mm)
		assert.Equal(t, c.home, r.Told == virtual.Home, c.mm)
		assert.Equal(t, c.home, !v.Visible, c.mm)
		if !c.home {
			continue
		}
		assert.Equal(t, c.uneven, r.Uneven, c.mm)
		if c.uneven {
			tt := w.Truth().Spots.T
			assert.Greater(t, v.GlowAt.Dot(tt)/tt.Len()/v.GlowAt.Len(), 0.999, "brighter on the side where the spot is")
		}
	}
}

// A small hole may never go dark.
func TestSmallHoleStaysLit(t *testing.T) {
	scope := changed(func(t *optics.Telescope) { t.Target.HoleRadiusMM = 0.2 })
	v := virtual.NewWith(scope, virtual.Setup{}, 1).Sight(optics.FaceTarget)
	assert.True(t, v.Visible)
	assert.Greater(t, v.Down, 0.5)
}

// Each face says what can be seen there. 25 mm is the secondary's half-width.
func TestWhereTheReturnGoes(t *testing.T) {
	cases := []struct {
		back                                       float64
		target, mouth, secondary, card             bool
		whyTarget, whyMouth, whySecondary, whyCard virtual.Unseen
	}{
		{8, true, false, true, false, "", virtual.InHole, "", virtual.NoBeam},
		{14, false, false, true, false, virtual.Beyond, virtual.InHole, "", virtual.NoBeam},
		{22, false, true, true, false, virtual.NoBeam, "", "", virtual.NoBeam},
		{40, false, false, false, true, virtual.NoBeam, virtual.NoBeam, virtual.Beyond, ""},
	}
	for _, c := range cases {
		w := faulty(virtual.Faults{ReturnMM: c.back}, 2)
		for _, f := range []struct {
			face optics.Face
			seen bool
			why  virtual.Unseen
		}{
			{optics.FaceTarget, c.target, c.whyTarget}, {optics.FaceMouth, c.mouth, c.whyMouth},
			{optics.FaceSecondary, c.secondary, c.whySecondary}, {optics.FaceCard, c.card, c.whyCard},
		} {
			v := w.Sight(f.face)
			assert.Equal(t, f.seen, v.Visible, "%s, %v mm", f.face, c.back)
			assert.Equal(t, f.why, v.Unseen, "%s, %v mm", f.face, c.back)
			assert.Equal(t, c.card, v.Leaves)
			if !f.seen {
				assert.Equal(t, virtual.Gone, w.Eyes(f.face).Told, "%s, %v mm", f.face, c.back)
			}
		}
	}
}

// With the spot p off a square primary's centre the return passes the secondary
// at about 1.2 p, and leaves by the open end toward where the
// spot is seen.
func TestWhereTheBeamLeaves(t *testing.T) {
	w := faulty(virtual.Faults{SpotMM: 45}, 9)
	s := w.Truth().Spots
	assert.InDelta(t, 1.2, s.Return.Len()/s.P.Len(), 0.1)
	v := w.Sight(optics.FacePrimary)
	require.True(t, v.Leaves)
	assert.InDelta(t, 0, math.Remainder(hourOf(v.LeavesSeen)-hourOf(v.Seen), 12), 1)
	card := w.Sight(optics.FaceCard)
	assert.True(t, card.Visible)
	assert.Equal(t, v.LeavesSeen, card.Seen)
	w.Card(false)
	assert.Equal(t, virtual.NoCard, w.Sight(optics.FaceCard).Unseen)
	assert.Equal(t, []virtual.Deed{virtual.LitUncarded}, w.Deeds())
	w.Swing()
	assert.Equal(t, []virtual.Deed{virtual.LitUncarded, virtual.SwungLit}, w.Deeds())
	w.LaserOn(false)
	w.Swing()
	assert.Len(t, w.Deeds(), 2)
}

// On the secondary the return spot is the fainter and narrower of two, until
// they are one.
func TestTwoSpotsOnTheSecondary(t *testing.T) {
	v := faulty(virtual.Faults{ReturnMM: 10}, 4).Sight(optics.FaceSecondary)
	assert.False(t, v.Merged)
	assertTube(t, v.At, v.Return.At.Sub(v.Outgoing.At), 1e-9)
	assert.Less(t, v.Return.WidthMM, v.Outgoing.WidthMM)
	assert.True(t, faulty(virtual.Faults{ReturnMM: 0.5}, 4).Sight(optics.FaceSecondary).Merged)
}

// The laser's window sends a little light round a second time: fainter than the
// true spot by far, and twice as far out as the return spot is when the
// outgoing one is centred.
func TestGhosts(t *testing.T) {
	v := faulty(virtual.Faults{ReturnMM: 5}, 4).Sight(optics.FaceTarget)
	require.Len(t, v.Ghosts, 1)
	assert.Less(t, v.Ghosts[0].Bright, v.Bright/10)
	assert.InDelta(t, 2, v.Ghosts[0].At.Len()/v.At.Len(), 0.1)
	p := faulty(virtual.Faults{ReturnMM: 5}, 4).Sight(optics.FacePrimary)
	require.Len(t, p.Ghosts, 1)
	assert.Less(t, p.Ghosts[0].Bright, p.Bright)
	assert.Greater(t, p.Ghosts[0].At.Len(), 1.0)
}

// Eyes: unbiased but for those that read short, within their own spread, to the
// half-hour, and one in so many swapped.
func TestEyesErr(t *testing.T) {
	const n = 3000
	keen := virtual.Keen{Deg: 8, Part: 0.1, MM: 0.3, Short: 0.1, Swaps: 0.05}
	seed := uint64(1) // of a spot well to the right, where a swap shows
	w := faulty(virtual.Faults{SpotMM: 30}, seed)
	for math.Abs(w.Eyes(optics.FacePrimary).Hour-3) > 0.6 {
		seed++
		w = faulty(virtual.Faults{SpotMM: 30}, seed)
	}
	w = virtual.NewWith(virtual.Builtin(), virtual.Setup{Faults: virtual.Faults{SpotMM: 30}, Sight: keen}, seed)
	true_ := w.Sight(optics.FacePrimary).Seen
	swapped, part, deg, degs := 0.0, 0.0, 0.0, 0.0
	for range n {
		r := w.Eyes(optics.FacePrimary)
		assert.Equal(t, math.Round(2*r.Hour)/2, r.Hour)
		assert.True(t, r.Hour >= 0 && r.Hour < 12)
		assert.InDelta(t, r.MM, r.Seen.Len(), 1e-9)
		if r.Swapped {
			swapped++
			assert.InDelta(t, 9, r.Hour, 2, "left for right, as one stands")
			continue
		}
		part += r.Seen.Len() / true_.Len()
		d := math.Remainder(hourOf(r.Seen)-hourOf(true_), 12) * 30
		deg += d
		degs += d * d
	}
	m := n - swapped
	assert.InDelta(t, 0.05, swapped/n, 0.012)
	assert.InDelta(t, 0.9, part/m, 0.01)
	assert.InDelta(t, 0, deg/m, 1)
	assert.InDelta(t, math.Sqrt(8*8+15*15/12.), math.Sqrt(degs/m), 0.7, "the half-hour adds its own")
}

func TestReadingAsTyped(t *testing.T) {
	cases := map[string]virtual.Reading{
		"4:30 12":      {Face: optics.FacePrimary, Told: virtual.Place, Hour: 4.5, MM: 12},
		"12:00 1.5":    {Face: optics.FaceTarget, Told: virtual.Place, Hour: 0, MM: 1.5},
		"card 2:00 50": {Face: optics.FaceCard, Told: virtual.Place, Hour: 2, MM: 50},
		"4:00 on":      {Face: optics.FacePrimary, Told: virtual.OnRing, Hour: 4},
		"in 11:30":     {Face: optics.FacePrimary, Told: virtual.InRing, Hour: 11.5},
		"wall 12:00":   {Face: optics.FacePrimary, Told: virtual.OnWall},
		"home even":    {Face: optics.FaceTarget, Told: virtual.Home, Hour: 3},
		"home 3:00":    {Face: optics.FaceTarget, Told: virtual.Home, Hour: 3, Uneven: true},
		"dead":         {Told: virtual.Dead},
		"not there":    {Told: virtual.Gone},
		"cant see":     {Told: virtual.CantSee},
		"dead laser":   {Told: virtual.LaserDead},
	}
	for want, r := range cases {
		assert.Equal(t, want, r.String())
	}
}

// Whatever is turned, no face ever shows anything but numbers, and what is
// visible has a width and can be seen.
func TestSightIsAlwaysSound(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		w := virtual.New(virtual.Builtin(), rapid.SampledFrom(allLevels).Draw(t, "level"), rapid.Uint64().Draw(t, "seed"))
		for range rapid.IntRange(0, 8).Draw(t, "turns") {
			w.Turn(rapid.SampledFrom(bothMirrors).Draw(t, "mirror"), rapid.IntRange(0, 2).Draw(t, "screw"), rapid.Float64Range(-9, 9).Draw(t, "by"))
		}
		for _, f := range allFaces {
			v := w.Sight(f)
			for _, x := range []float64{v.Seen.Right, v.Seen.Up, v.WidthMM, v.Bright, v.Down, v.Glow.Right, v.Glow.Up} {
				assert.False(t, math.IsNaN(x) || math.IsInf(x, 0))
			}
			assert.Equal(t, v.Unseen == "", v.Visible)
			if v.Visible {
				assert.Greater(t, v.WidthMM, 0.1)
				assert.True(t, v.Bright > 0.02 && v.Bright <= 1, v.Bright)
			}
			assert.NotEmpty(t, w.Eyes(f).String())
		}
	})
}
