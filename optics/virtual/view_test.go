package virtual_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"

	"spotward/optics"
	"spotward/optics/virtual"
)

// Worked out by hand with a right-handed viewer (right = look × up) and 12
// toward the focuser. A screw of the secondary that pushes from the sky side
// sends the spot on the primary to the screw's opposite side, stretched 2 : 1
// along the focuser's direction; one that pulls, to its own side. A screw of
// the primary that pulls from behind moves the return spot on a slanted face
// 12→6, 3→3, 6→12, 9→9, and on a flat one, seen from the sky end, 12→12, 3→9.
func TestAClockwiseTurnMovesTheSpotToItsHour(t *testing.T) {
	const s, p = optics.Secondary, optics.Primary
	cases := []struct {
		name    string
		mirror  optics.Mirror
		pulls   bool
		flat    bool
		screwAt float64 // hour
		spotTo  float64 // hour
	}{
		{"secondary pushing", s, false, false, 0, 6},
		{"secondary pushing", s, false, false, 3, 9},
		{"secondary pushing", s, false, false, 6, 0},
		{"secondary pushing", s, false, false, 9, 3},
		{"secondary pulling", s, true, false, 0, 0},
		{"secondary pulling", s, true, false, 3, 3},
		{"secondary pulling", s, true, false, 9, 9},
		{"primary pulling, slanted", p, true, false, 0, 6},
		{"primary pulling, slanted", p, true, false, 3, 3},
		{"primary pulling, slanted", p, true, false, 6, 0},
		{"primary pulling, slanted", p, true, false, 9, 9},
		{"primary pushing, slanted", p, false, false, 0, 0},
		{"primary pushing, slanted", p, false, false, 3, 9},
		{"primary pulling, flat", p, true, true, 0, 0},
		{"primary pulling, flat", p, true, true, 3, 9},
		{"primary pulling, flat", p, true, true, 6, 6},
		{"primary pushing, flat", p, false, true, 3, 3},
	}
	for _, c := range cases {
		scope := changed(func(t *optics.Telescope) {
			for _, cell := range []*optics.Cell{&t.Secondary, &t.Primary} {
				cell.Kind, cell.ClockwisePulls, cell.FirstDeg, cell.Locks = optics.Sprung, c.pulls, c.screwAt*30, 0
			}
			t.Target.Flat = c.flat
		})
		w := virtual.NewWith(scope, virtual.Setup{}, 1)
		face := optics.FacePrimary
		if c.mirror == p {
			face = optics.FaceTarget
		}
		before := w.Sight(face).Seen
		w.TurnExactly(c.mirror, 0, 0.25)
		after := w.Sight(face).Seen
		moved := optics.Seen{Right: after.Right - before.Right, Up: after.Up - before.Up}
		assert.Greater(t, moved.Len(), 1.0, c.name)
		off := math.Remainder(hourOf(moved)-c.spotTo, 12)
		assert.InDelta(t, 0, off, 0.1, "%s, screw at %v: the spot went to %.2f", c.name, c.screwAt, hourOf(moved))
	}
}

// A tilt toward the focuser moves the spot on the primary twice as far as one
// across; the mirror below it makes no such difference.
func TestTwoToOneAcrossTheFold(t *testing.T) {
	scope := changed(func(t *optics.Telescope) {
		t.Secondary.Kind, t.PivotAboveMM, t.Primary.Locks = optics.Sprung, 0.01, 0
		t.Secondary.FirstDeg, t.Primary.FirstDeg = 0, 0
	})
	for m, ratio := range map[optics.Mirror]float64{optics.Secondary: 2, optics.Primary: 1} {
		tr := virtual.NewWith(scope, virtual.Setup{}, 1).Truth().Secondary
		if m == optics.Primary {
			tr = virtual.NewWith(scope, virtual.Setup{}, 1).Truth().Primary
		}
		along := tr.PerTurn[0].X                              // the screw at 12
		across := (tr.PerTurn[1].Y - tr.PerTurn[2].Y) / 1.732 // those at 4 and 8
		assert.InDelta(t, ratio, math.Abs(along/across), 0.02, m)
	}
}

// One turn of lead 0.8 on a circle of 90 moves the return spot 14.4 mm, one of
// 0.7 on 14 the spot on the primary 64 mm along or 32 mm across, on a 254 mm
// f/4.7 (f 1194, L 967, X 247): 4/3·S·lead/R, and 4/3 and 2/3·L·lead/R.
func TestSizeOfATurn(t *testing.T) {
	scope := changed(func(t *optics.Telescope) {
		t.ApertureMM, t.FocalLengthMM, t.FromPrimaryMM, t.HoleFromAxisMM = 254, 1194, 967, 247
		t.PivotAboveMM = 0.01
		t.Secondary.CircleMM, t.Secondary.LeadMM, t.Secondary.FirstDeg = 14, 0.7, 0
		t.Primary.CircleMM, t.Primary.LeadMM, t.Primary.FirstDeg = 90, 0.8, 0
	})
	tr := virtual.NewWith(scope, virtual.Setup{}, 1).Truth()
	assert.InDelta(t, 14.4, tr.Primary.PerTurn[0].Len(), 0.05)
	assert.InDelta(t, 64.5, tr.Secondary.PerTurn[0].Len(), 0.1)
	assert.InDelta(t, 32.2, math.Abs(tr.Secondary.PerTurn[1].Y)*2/1.732, 0.1)
}

// The picture is turned until 12 is straight up as one stands: with the focuser
// at 2:00 from the sky end, what is toward it stands at 2:00 there, and at
// 10:00 from behind.
func TestTheDialStandsUpright(t *testing.T) {
	w := faulty(virtual.Faults{SpotMM: 20, ReturnMM: 6}, 3)
	tr := w.Truth()
	p := w.Eyes(optics.FacePrimary)
	want := math.Mod(hourOf(optics.Seen{Right: -tr.Spots.P.Y, Up: tr.Spots.P.X})+2, 12)
	assert.InDelta(t, 0, math.Remainder(p.Hour-want, 12), 0.251)

	w = faulty(virtual.Faults{ReturnMM: 8}, 3)
	tt := w.Truth().Spots.T
	r := w.Eyes(optics.FaceTarget)
	want = math.Mod(hourOf(optics.Seen{Right: tt.Y, Up: -tt.X})+10, 12)
	assert.InDelta(t, 0, math.Remainder(r.Hour-want, 12), 0.251)
}

// One who stands at the sky end looks at the drawtube's mouth across the tube,
// along +x with z up: toward the sky is out toward the rim, and y on the left.
func TestTheMouthIsSeenFromTheSkyEnd(t *testing.T) {
	w := faulty(virtual.Faults{ReturnMM: 22}, 5)
	v := w.Sight(optics.FaceMouth)
	assert.True(t, v.Visible, v.Unseen)
	assert.InDelta(t, -v.At.Y, v.Seen.Right, 1e-12)
	assert.InDelta(t, v.At.X, v.Seen.Up, 1e-12)
	assert.Less(t, v.At.Sub(w.Truth().Spots.T).Len(), 3.0, "the beam is nearly along the focuser there")
}

// The printed rule and package optics have it the same way on the faces that
// both see from the same place.
func TestBothOpinionsSeeTheSame(t *testing.T) {
	for _, flat := range []bool{false, true} {
		scope := changed(func(t *optics.Telescope) { t.Target.Flat = flat })
		w := virtual.New(scope, virtual.Usual, 4)
		for _, f := range allFaces {
			v := w.Sight(f)
			assert.Equal(t, scope.ToSeen(f, v.At), v.Seen, f)
			r := w.Eyes(f)
			if r.MM > 0 {
				assert.InDelta(t, scope.FromDial(f, r.Dial).Right, r.Seen.Right, 1e-9, f)
			}
		}
	}
}
