package virtual_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"spotward/optics"
	"spotward/optics/virtual"
)

func TestNoFaultsIsAligned(t *testing.T) {
	for seed := uint64(1); seed < 20; seed++ {
		w := faulty(virtual.Faults{}, seed)
		tr := w.Truth()
		require.NoError(t, tr.Err)
		assert.Less(t, tr.ErrorMM, 1e-6)
		assert.Less(t, tr.Spots.P.Len()+tr.Spots.T.Len(), 1e-6)
		assert.Equal(t, virtual.Home, w.Eyes(optics.FaceTarget).Told)
		assert.Equal(t, virtual.Dead, w.Eyes(optics.FacePrimary).Told)
		assert.Equal(t, virtual.Dead, w.Eyes(optics.FaceSecondary).Told)
		w.Swing()
		assert.Less(t, w.Truth().ErrorMM, 1e-6, "it stays so when swung")
	}
}

// The spots begin as far off as they were set to, and the return spot of a
// telescope that is well out is not on the face.
func TestBeginsAsFarOffAsSet(t *testing.T) {
	for seed := uint64(1); seed < 30; seed++ {
		w := faulty(virtual.Faults{SpotMM: 30}, seed)
		assert.InDelta(t, 30, w.Truth().Spots.P.Len(), 2)
		assert.False(t, w.Sight(optics.FaceTarget).Visible)
		assert.Contains(t, []virtual.Told{virtual.Gone}, w.Eyes(optics.FaceTarget).Told)
		w = faulty(virtual.Faults{ReturnMM: 9}, seed)
		assert.InDelta(t, 9, w.Truth().Spots.T.Len(), 0.1)
		assert.True(t, w.Sight(optics.FaceTarget).Visible)
	}
}

func TestScrewFaultsShow(t *testing.T) {
	cases := []struct {
		is    virtual.Ailment
		turns float64
		felt  virtual.Felt
		moves float64 // as part of a sound screw's move
	}{
		{"", -0.25, "", 1},
		{virtual.Seized, -0.25, virtual.Stuck, 0},
		{virtual.Worn, -0.25, virtual.Stripped, 0},
		{virtual.Grabbing, -0.06, virtual.Sticky, 0},
		{virtual.Slack, -0.5, virtual.Free, 0.25},
	}
	for _, c := range cases {
		f := virtual.Faults{ReturnMM: 5, LocksEased: true}
		f.Screws = []virtual.ScrewFault{{Mirror: optics.Primary, Screw: 1, Is: c.is}}
		w := faulty(f, 4)
		before, per := watched(t, w, optics.Primary), w.Truth().Primary.PerTurn[1]
		got := w.TurnExactly(optics.Primary, 1, c.turns)
		assert.Equal(t, c.felt, got.Felt, c.is)
		moved := watched(t, w, optics.Primary).Sub(before)
		assertTube(t, per.Scale(c.turns*c.moves), moved, 0.05, c.is)
	}
}

// A grabbing screw lets go under a knuckle.
func TestKnockFreesAGrabbingScrew(t *testing.T) {
	f := virtual.Faults{LocksEased: true, Screws: []virtual.ScrewFault{{Mirror: optics.Primary, Screw: 0, Is: virtual.Grabbing}}}
	w := faulty(f, 4)
	w.TurnExactly(optics.Primary, 0, -0.06)
	assert.Less(t, watched(t, w, optics.Primary).Len(), 1e-6)
	w.Knock(optics.Primary)
	assert.Greater(t, watched(t, w, optics.Primary).Len(), 0.5)
}

// A screw near its end cannot go where it should; the same amount on all
// changes only the depth, so the others can do its part.
func TestNearItsEndTheOthersDoItsPart(t *testing.T) {
	f := virtual.Faults{ReturnMM: 12, LocksEased: true}
	for i := range 3 {
		f.Screws = []virtual.ScrewFault{{Mirror: optics.Primary, Screw: i, Is: virtual.NearEnd}}
		w := faulty(f, 6)
		turns := w.Truth().Primary.Turns
		got := w.TurnExactly(optics.Primary, i, -turns[i])
		require.Equal(t, virtual.AtEnd, got.Felt, i)
		assert.InDelta(t, -turns[i]/2, got.Turns, 1e-9)
		rest := -turns[i] - got.Turns
		for j := range 3 {
			if j != i {
				w.TurnExactly(optics.Primary, j, -turns[j]-rest)
			}
		}
		assert.Less(t, watched(t, w, optics.Primary).Len(), 0.05)
	}
}

func TestLocksPullEachItsOwnWay(t *testing.T) {
	for seed := uint64(1); seed < 20; seed++ {
		w := faulty(virtual.Faults{LockPull: 0.45, LockSkewDeg: 30}, seed)
		tr := w.Truth().Primary
		for i := range 3 {
			before := watched(t, w, optics.Primary)
			eased := w.TurnLockExactly(i, -0.1)
			moved := watched(t, w, optics.Primary).Sub(before)
			assertTube(t, tr.Pull[i].Scale(eased.Turns), moved, 0.02)
			part := tr.Pull[i].Len() / tr.PerTurn[i].Len()
			assert.True(t, part > 0.149 && part < 0.451, "%v of an adjusting turn", part)
			against := -tr.Pull[i].Dot(tr.PerTurn[i]) / tr.Pull[i].Len() / tr.PerTurn[i].Len()
			assert.Greater(t, against, math.Cos(31*math.Pi/180), "it undoes what its partner does, about")
		}
		easeLocks(w, 0.4)
		eased := watched(t, w, optics.Primary)
		easeLocks(w, 0.1)
		assertTube(t, eased, watched(t, w, optics.Primary), 1e-9, "past touch it does nothing")
		assert.Equal(t, virtual.Free, w.Clone().TurnLockExactly(0, -1).Felt, "it wobbles in its thread")
		assert.Equal(t, virtual.AtEnd, w.TurnLockExactly(0, 3).Felt)
	}
}

// An adjusting screw is blocked only where it draws the mirror back onto its
// lock, and what is eased there gives so much room.
func TestLockBlocks(t *testing.T) {
	w := faulty(virtual.Faults{LockFollow: 0.5}, 3)
	before := watched(t, w, optics.Primary)
	assert.Equal(t, virtual.Stuck, w.TurnExactly(optics.Primary, 0, 0.25).Felt)
	assertTube(t, before, watched(t, w, optics.Primary), 1e-9)
	assert.Contains(t, w.Deeds(), virtual.LockNotEased)
	assert.Equal(t, virtual.Sticky, w.Clone().TurnExactly(optics.Primary, 0, -0.0625).Felt)

	easeLocks(w, 0.25)
	bite := w.Truth().Primary.Bite[0]
	got := w.TurnExactly(optics.Primary, 0, 2)
	assert.Equal(t, virtual.Stuck, got.Felt)
	assert.InDelta(t, (0.1-bite)/0.5, got.Turns, 1e-9)
	w.TurnLockExactly(0, -0.125)
	assert.InDelta(t, 0.25, w.TurnExactly(optics.Primary, 0, 1).Turns, 1e-9)
}

func TestPushPull(t *testing.T) {
	w := faulty(virtual.Faults{SpotMM: 20}, 3)
	before := watched(t, w, optics.Secondary)
	got := w.TurnExactly(optics.Secondary, 0, 0.5)
	assert.Equal(t, virtual.Binds, got.Felt, "nothing was eased")
	assert.InDelta(t, 0.15, got.Turns, 1e-9)
	assert.Contains(t, w.Deeds(), virtual.BoltForced)
	w.TurnExactly(optics.Secondary, 0, -got.Turns)
	assertTube(t, before, watched(t, w, optics.Secondary), 1e-9)

	per := w.Truth().Secondary.PerTurn
	turnPair(w, optics.Secondary, 1, 2, 0.25)
	want := per[2].Sub(per[1]).Scale(0.25)
	assert.Less(t, watched(t, w, optics.Secondary).Sub(before).Sub(want).Len(), 0.02*want.Len()+0.1)
	assert.False(t, w.Truth().Secondary.Loose)

	w.TurnExactly(optics.Secondary, 0, -0.25)
	assert.True(t, w.Truth().Secondary.Loose)
	at := watched(t, w, optics.Secondary)
	w.Snug(optics.Secondary)
	assert.False(t, w.Truth().Secondary.Loose)
	assert.Less(t, watched(t, w, optics.Secondary).Sub(at).Len(), 0.5, "taking up what is free moves nothing")
	assert.Equal(t, virtual.Free, w.TurnExactly(optics.Secondary, 0, -0.75).Felt)
	assert.Contains(t, w.Deeds(), virtual.EasedTooFar)
	for i := range 3 {
		w.TurnExactly(optics.Secondary, i, -1)
	}
	assert.Contains(t, w.Deeds(), virtual.AllEased)
}

// Each loose thing gives in the swing, and nothing else does.
func TestSwingFindsWhatIsLoose(t *testing.T) {
	cases := []struct {
		name   string
		faults virtual.Faults
		p, t   bool
		twice  bool
	}{
		{"all tight", virtual.Faults{LockPull: 0.4}, false, false, false},
		{"loose secondary", virtual.Faults{LooseSecondaryTurns: 0.15}, true, true, true},
		{"rocking primary", virtual.Faults{RockingPrimaryMM: 2}, false, true, true},
		{"unsettled primary", virtual.Faults{UnsettledMM: 2}, false, true, false},
		{"locks left loose", virtual.Faults{LocksEased: true}, false, true, true},
	}
	for _, kind := range []optics.CellKind{optics.PushPull, optics.Sprung} {
		scope := changed(func(t *optics.Telescope) { t.Secondary.Kind = kind })
		for _, c := range cases {
			first, second := [2]float64{}, 0.0
			for seed := uint64(1); seed <= 20; seed++ {
				w := virtual.NewWith(scope, virtual.Setup{Faults: c.faults}, seed)
				a := w.Truth().Spots
				w.Swing()
				b := w.Truth().Spots
				w.Swing()
				first[0] += b.P.Sub(a.P).Len() / 20
				first[1] += b.T.Sub(a.T).Len() / 20
				second += w.Truth().Spots.T.Sub(b.T).Len() / 20
			}
			assert.Equal(t, c.p, first[0] > 0.5, "%s, %s: p moved %v", kind, c.name, first[0])
			assert.Equal(t, c.t, first[1] > 0.5, "%s, %s: t moved %v", kind, c.name, first[1])
			assert.Equal(t, c.twice, second > 0.3, "%s, %s: t moved %v the second time", kind, c.name, second)
			t.Logf("%s, %s: p %.2f t %.2f, then %.2f", kind, c.name, first[0], first[1], second)
		}
		w := virtual.NewWith(scope, virtual.Setup{Faults: virtual.Faults{LooseSecondaryTurns: 0.15}}, 1)
		assert.True(t, w.Truth().Secondary.Loose, kind)
		w.Snug(optics.Secondary)
		assert.False(t, w.Truth().Secondary.Loose, kind)
		before := w.Truth().Spots.P
		w.Swing()
		assertTube(t, before, w.Truth().Spots.P, 1e-9, "snug it stays")
	}
}

// One degree of twist moves the spot 17 mm, straight across, on a telescope
// whose secondary stands 967 mm from the primary; 2π/360·L.
func TestHolderTwists(t *testing.T) {
	f := virtual.Faults{TwistDeg: 1}
	twists := 0
	for seed := uint64(1); seed < 10; seed++ {
		w, true_ := faulty(f, seed), faulty(virtual.Faults{}, seed)
		for _, x := range []*virtual.World{w, true_} {
			turnPair(x, optics.Secondary, 0, 1, 0.125)
		}
		off := w.Truth().Spots.P.Sub(true_.Truth().Spots.P)
		assert.InDelta(t, 0, off.X, 0.1)
		if math.Abs(off.Y) > 0.5 {
			twists++
		}
	}
	assert.Greater(t, twists, 3)
}

func TestLaserTurnsInItsHolder(t *testing.T) {
	w := faulty(virtual.Faults{LaserSlopeRad: 2e-3, HolderSlopeRad: 1e-3}, 5)
	var sum optics.Tube
	var at []optics.Tube
	for range 4 {
		p := w.Sight(optics.FacePrimary).At
		at, sum = append(at, p), sum.Add(p)
		w.TurnLaser(90)
	}
	path := virtual.Builtin().PathMM()
	centre := sum.Scale(0.25)
	assert.InDelta(t, 1e-3*path, centre.Len(), 0.01, "the holder's part stays")
	for k := range 4 {
		r, next := at[k].Sub(centre), at[(k+1)%4].Sub(centre)
		assert.InDelta(t, 2e-3*path, r.Len(), 0.01, "the laser's part goes round")
		assertTube(t, optics.Tube{X: -r.Y, Y: r.X}, next, 0.01, "from x to y")
	}
	w.TurnLaser(90)
	assert.Equal(t, virtual.TurnedAway, w.Sight(optics.FaceTarget).Unseen)
	w.Reseat()
	assert.NotEqual(t, virtual.TurnedAway, w.Sight(optics.FaceTarget).Unseen, "it is put back as it was")
}

// A hole beside the laser's own axis goes round as well, by its offset.
func TestLaserOffset(t *testing.T) {
	w := faulty(virtual.Faults{LaserOffsetMM: 0.8, HolderOffsetMM: 0.3}, 5)
	var at []optics.Tube
	for range 4 {
		at = append(at, w.Sight(optics.FacePrimary).At)
		w.TurnLaser(90)
	}
	centre := at[0].Add(at[2]).Scale(0.5)
	assert.InDelta(t, 0.3, centre.Len(), 0.01)
	for k := range 4 {
		r, next := at[k].Sub(centre), at[(k+1)%4].Sub(centre)
		assert.InDelta(t, 0.8, r.Len(), 0.01)
		assertTube(t, optics.Tube{X: -r.Y, Y: r.X}, next, 0.01, "from x to y")
	}
	tr := w.Truth()
	hole := optics.Tube{X: tr.Laser.OffsetZ, Y: tr.Laser.OffsetY}
	assertTube(t, tr.Spots.T.Add(hole), w.Sight(optics.FaceMouth).At, 0.2, "the mouth's middle stays where the drawtube is")
}

func TestReseatSpreads(t *testing.T) {
	const n = 400
	w := faulty(virtual.Faults{SeatSpreadMM: 1.5}, 5)
	squares := 0.0
	for range n {
		w.Reseat()
		p := w.Truth().Spots.P
		squares += p.Dot(p) / (2 * n)
	}
	assert.InDelta(t, 1.5, math.Sqrt(squares), 0.2)
}

func TestBatteryAndBrightness(t *testing.T) {
	w := faulty(virtual.Faults{ReturnMM: 6, LocksEased: true, DeadAfter: 2}, 3)
	assert.True(t, w.Sight(optics.FaceTarget).Visible)
	w.TurnExactly(optics.Primary, 0, -0.1)
	w.TurnExactly(optics.Primary, 0, 0.1)
	assert.Equal(t, virtual.LaserDark, w.Sight(optics.FaceTarget).Unseen)
	assert.Equal(t, virtual.LaserDead, w.Eyes(optics.FaceTarget).Told)
	w.LaserOn(false)
	assert.Equal(t, virtual.CantSee, w.Eyes(optics.FaceTarget).Told)

	strong, weak := faulty(virtual.Faults{ReturnMM: 6}, 3), faulty(virtual.Faults{ReturnMM: 6, WeakLaser: true}, 3)
	for _, f := range []optics.Face{optics.FacePrimary, optics.FaceTarget} {
		assert.Less(t, weak.Sight(f).Bright, strong.Sight(f).Bright/3, f)
	}
}

// A ring stuck m beside the centre is taken for the centre.
func TestRingOffCentre(t *testing.T) {
	w := faulty(virtual.Faults{RingOffMM: 3}, 7)
	tr := w.Truth()
	assert.InDelta(t, 3, tr.Ring.Len(), 1e-9)
	assert.Less(t, tr.ErrorMM, 1e-6)
	assertTube(t, tr.Ring.Scale(-1), w.Sight(optics.FacePrimary).At, 1e-6)
}

func TestLabels(t *testing.T) {
	asked := virtual.Builtin()
	for seed := uint64(1); seed < 6; seed++ {
		w := faulty(virtual.Faults{PrimaryReversed: true}, seed)
		assert.False(t, w.Truth().Telescope.Primary.LabelsClockwise)
		assert.True(t, w.Truth().Telescope.Secondary.LabelsClockwise)
		assert.Equal(t, asked, w.Described(), "the file does not know")
		w = faulty(virtual.Faults{Unlabelled: true}, seed)
		assert.Equal(t, optics.Unknown, w.Described().Primary.PlacesKnown)
		assert.NotEqual(t, asked.Primary.FirstDeg, w.Truth().Telescope.Primary.FirstDeg)
	}
}

// What a file leaves out is there all the same, each time something else.
func TestUnknownFigures(t *testing.T) {
	bare := optics.Telescope{ApertureMM: 150, FocalLengthMM: 750, FromPrimaryMM: 560, HoleFromAxisMM: 200}
	seen := map[float64]bool{}
	for seed := uint64(1); seed < 12; seed++ {
		w := virtual.New(bare, virtual.Usual, seed)
		tr := w.Truth()
		require.NoError(t, tr.Err)
		c := tr.Telescope.Primary
		seen[c.FirstDeg] = true
		assert.True(t, c.CircleMM >= 0.33*150 && c.CircleMM <= 0.45*150, c.CircleMM)
		assert.True(t, c.LeadMM >= 0.5 && c.LeadMM <= 1.27, c.LeadMM)
		assert.Len(t, tr.Secondary.Turns, 3)
		assert.True(t, w.Sight(optics.FacePrimary).Visible)
	}
	assert.Len(t, seen, 11)
}

// What a file guesses is about right.
func TestGuessedFigures(t *testing.T) {
	guessed := changed(func(t *optics.Telescope) {
		t.Primary.GainKnown, t.Primary.PlacesKnown = optics.Guessed, optics.Guessed
	})
	for seed := uint64(1); seed < 40; seed++ {
		c := virtual.NewWith(guessed, virtual.Setup{}, seed).Truth().Telescope.Primary
		assert.InDelta(t, 0.8, c.LeadMM, 0.8*0.36)
		assert.InDelta(t, 30, c.FirstDeg, 15)
		assert.NotEqual(t, 0.8, c.LeadMM)
	}
}
