package reading

import (
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"spotward/optics"
	"spotward/session/event"
)

// readingScope is a telescope of the usual size with its focuser straight up,
// so that the dial and the tube differ by the viewpoint alone.
func readingScope() optics.Telescope {
	return optics.Telescope{
		ApertureMM: 254, FocalLengthMM: 1194, FromPrimaryMM: 967, HoleFromAxisMM: 247,
		MinorAxisMM: 63, InnerRadiusMM: 142,
		RingInnerMM: 4.5, RingOuterMM: 8,
		Target:    optics.Target{HoleRadiusMM: 3, FaceRadiusMM: 13, RingStepMM: 2, RingCount: 5, AlongFace: true},
		Primary:   optics.Cell{Screws: 3, Labels: []string{"A", "B", "C"}, Locks: 3},
		Secondary: optics.Cell{Screws: 3, Labels: []string{"A", "B", "C"}},
	}
}

func onFace(f optics.Face) Context {
	return Context{Tel: readingScope(), Face: f, Mirror: optics.Primary}
}

func must(t *testing.T, text string, c Context) Said {
	t.Helper()
	s, err := Parse(text, c)
	require.NoError(t, err, text)
	require.Equal(t, text, s.Text)
	require.NotEmpty(t, s.Echo())
	return s
}

// sigmas returns the errors of a reading along its direction and across it.
func sigmas(s Said) (along, across float64) {
	u := s.Belief.At
	if n := u.Len(); n > 0 {
		u = u.Scale(1 / n)
	} else {
		u = optics.Tube{X: 1}
	}
	c := s.Belief.Cov
	in := func(v optics.Tube) float64 {
		return math.Sqrt(c.XX*v.X*v.X + 2*c.XY*v.X*v.Y + c.YY*v.Y*v.Y)
	}
	return in(u), in(optics.Tube{X: -u.Y, Y: u.X})
}

// The forms of words, what each stands for and how far it may be out: common
// practice.
func TestEveryFormOfWords(t *testing.T) {
	const (
		primary = optics.FacePrimary
		target  = optics.FaceTarget
		card    = optics.FaceCard
	)
	eyes := func(v float64) float64 { return math.Hypot(0.7, v) }
	deg := math.Pi / 180
	rim := 254.0 / 2
	slope := func(hour, mm float64) float64 { // of printed rings, focuser straight up
		s, c := math.Sincos(hour * math.Pi / 6)
		return mm / math.Hypot(s, math.Sqrt2*c)
	}
	tests := []struct {
		typed         string
		face          optics.Face
		kind          SaidKind
		hour, mm      float64
		along, across float64
		echo          string
	}{
		{"4 12", target, SaidPlace, 4, 12, eyes(0.22 * 12), eyes(9 * deg * 12), "4 o'clock, 12 mm from the hole"},
		{"430 12", target, SaidPlace, 4.5, 12, eyes(0.22 * 12), eyes(9 * deg * 12), "half past 4, 12 mm from the hole"},
		{"4h30 12", target, SaidPlace, 4.5, 12, eyes(0.22 * 12), eyes(9 * deg * 12), "half past 4, 12 mm from the hole"},
		{"4.5 12", target, SaidPlace, 4.5, 12, eyes(0.22 * 12), eyes(9 * deg * 12), "half past 4, 12 mm from the hole"},
		{"4,5 12", target, SaidPlace, 4.5, 12, eyes(0.22 * 12), eyes(9 * deg * 12), "half past 4, 12 mm from the hole"},
		{"4:30 12", primary, SaidPlace, 4.5, 12, eyes(0.22 * 12), eyes(9 * deg * 12), "half past 4, 12 mm from the ring's centre"},
		{"4.5h 12mm", primary, SaidPlace, 4.5, 12, eyes(0.22 * 12), eyes(9 * deg * 12), "half past 4, 12 mm from the ring's centre"},
		{"+8.5 -8.5", target, SaidPlace, 4.5, 8.5 * math.Sqrt2, eyes(0.22 * 8.5 * math.Sqrt2), eyes(9 * deg * 8.5 * math.Sqrt2), "half past 4, 12 mm from the hole"},

		{"4 2r", primary, SaidPlace, 4, 32, eyes(0.20 * 32), eyes(9 * deg * 32), "4 o'clock, 2 ring widths, 32 mm from the ring's centre"},
		{"4 2 rings", primary, SaidPlace, 4, 32, eyes(0.20 * 32), eyes(9 * deg * 32), "4 o'clock, 2 ring widths, 32 mm from the ring's centre"},
		{"3 2r", target, SaidPlace, 3, 7, eyes(0.20 * 7), eyes(9 * deg * 7), "3 o'clock, 2 printed rings, 7 mm from the hole"},
		{"12 2 rings", target, SaidPlace, 12, 7 / math.Sqrt2, eyes(0.20 * 7 / math.Sqrt2), eyes(9 * deg * 7 / math.Sqrt2), "12 o'clock, 2 printed rings, 4.9 mm from the hole"},
		{"4 2r", target, SaidPlace, 4, slope(4, 7), eyes(0.20 * slope(4, 7)), eyes(9 * deg * slope(4, 7)), "4 o'clock, 2 printed rings, 6.3 mm from the hole"},

		{"4 on", primary, SaidPlace, 4, 6.25, 0.7, eyes(9 * deg * 6.25), "on the edge of the ring at 4 o'clock"},
		{"4 on", target, SaidPlace, 4, 3, 0.7, eyes(9 * deg * 3), "on the edge of the hole at 4 o'clock"},
		{"out at 4", primary, SaidPlace, 4, 9, 1, eyes(9 * deg * 9), "just outside the ring at 4 o'clock"},
		{"out 4", target, SaidPlace, 4, 4, 1, eyes(9 * deg * 4), "just outside the hole at 4 o'clock"},
		{"in 4", primary, SaidPlace, 4, 2.25, 1.5, 1.5, "inside the ring, toward 4 o'clock"},
		{"in 4", target, SaidPlace, 4, 1.5, 1, 1, "inside the hole, toward 4 o'clock"},
		{"in", primary, SaidInside, 0, 0, 2.25, 2.25, "somewhere inside the ring"},
		{"in", target, SaidInside, 0, 0, 1.5, 1.5, "somewhere inside the hole"},
		{"dead", primary, SaidDead, 0, 0, 0.7, 0.7, "dead centre"},

		{"home", target, SaidHome, 0, 0, 1.25, 1.25, "home: seen going down the hole"},
		{"home 2", target, SaidHome, 2, 1.5, 1.25, 1.25, "home, brighter at 2 o'clock"},

		{"low right 8", target, SaidPlace, 4.5, 8, eyes(0.22 * 8), eyes(20 * deg * 8), "low right (half past 4), 8 mm from the hole"},
		{"up 5 left 3", target, SaidPlace, 12 - math.Atan2(3, 5)*6/math.Pi, math.Hypot(5, 3), eyes(0.22 * math.Hypot(5, 3)), eyes(20 * deg * math.Hypot(5, 3)), "11 o'clock, 5.8 mm from the hole"},
		{"8.5 right 8.5 down", target, SaidPlace, 4.5, 8.5 * math.Sqrt2, eyes(0.22 * 8.5 * math.Sqrt2), eyes(20 * deg * 8.5 * math.Sqrt2), "half past 4, 12 mm from the hole"},
		{"r8.5 d8.5", target, SaidPlace, 4.5, 8.5 * math.Sqrt2, eyes(0.22 * 8.5 * math.Sqrt2), eyes(20 * deg * 8.5 * math.Sqrt2), "half past 4, 12 mm from the hole"},
		{"toward the tube 3", target, SaidPlace, 6, 3, eyes(0.22 * 3), eyes(20 * deg * 3), "toward the tube (6 o'clock), 3 mm from the hole"},

		{"4 edge", primary, SaidPlace, 4, rim, eyes(0.15 * rim), eyes(9 * deg * rim), "4 o'clock, at the edge, 127 mm from the ring's centre"},
		{"4 1/2", primary, SaidPlace, 4, rim / 2, eyes(0.15 * rim / 2), eyes(9 * deg * rim / 2), "4 o'clock, 1/2 of the way to the edge, 63.5 mm from the ring's centre"},

		{"wall 12", primary, SaidOffMirror, 12, 142, rim / 2, rim / 2, "beside the mirror, on the wall at 12 o'clock"},
		{"card 2 50", target, SaidPlace, 2, 50, eyes(0.22 * 50), eyes(9 * deg * 50), "2 o'clock, 50 mm from the middle of the card"},
		{"2 50", card, SaidPlace, 2, 50, eyes(0.22 * 50), eyes(9 * deg * 50), "2 o'clock, 50 mm from the middle of the card"},
		{"4 12", optics.FaceSecondary, SaidPlace, 4, 12, eyes(0.22 * 12), eyes(9 * deg * 12), "4 o'clock, 12 mm from the outgoing spot"},
		{"4 12", optics.FaceMouth, SaidPlace, 4, 12, eyes(0.22 * 12), eyes(9 * deg * 12), "4 o'clock, 12 mm from the middle of the drawtube"},
	}
	for _, tt := range tests {
		t.Run(tt.typed+" on the "+string(tt.face), func(t *testing.T) {
			c := onFace(tt.face)
			s := must(t, tt.typed, c)
			assert.Equal(t, tt.kind, s.Kind)
			assert.True(t, s.HasPlace())
			want := optics.AtHour(tt.hour, tt.mm)
			assert.InDelta(t, want.Right, s.At.Right, 1e-9)
			assert.InDelta(t, want.Up, s.At.Up, 1e-9)
			at := c.Tel.DialToTube(s.Face, want)
			assert.InDelta(t, 0, s.Belief.At.Sub(at).Len(), 1e-9)
			along, across := sigmas(s)
			assert.InDelta(t, tt.along, along, 1e-9, "along")
			assert.InDelta(t, tt.across, across, 1e-9, "across")
			assert.Equal(t, tt.echo, s.Echo())
		})
	}
}

func TestWordsWithoutAPlace(t *testing.T) {
	tests := []struct {
		typed string
		kind  SaidKind
	}{
		{"gone", SaidGone}, {"not there", SaidGone},
		{"cant see", SaidCantSee}, {"can’t see", SaidCantSee}, {"too bright", SaidCantSee},
		{"not seen", SaidCantSee}, {"no red", SaidCantSee}, {"nothing", SaidCantSee},
		{"many", SaidMany}, {"two spots", SaidMany}, {"which one", SaidMany},
		{"dead laser", SaidLaserDead}, {"laser dead", SaidLaserDead},
	}
	for _, tt := range tests {
		s := must(t, tt.typed, onFace(optics.FaceTarget))
		assert.Equal(t, tt.kind, s.Kind, tt.typed)
		assert.False(t, s.HasPlace(), tt.typed)
		assert.Equal(t, optics.FaceTarget, s.Face)
	}
}

func TestSameAndAsCued(t *testing.T) {
	c := onFace(optics.FaceTarget)
	for _, typed := range []string{"same", "="} {
		_, err := Parse(typed, c)
		assert.Error(t, err, "%s with nothing to refer to", typed)
	}

	last := optics.Belief{At: optics.Tube{X: -4, Y: 3}, Cov: optics.Cov{XX: 2, XY: 0.5, YY: 1}}
	c.Last = &last
	s := must(t, "same", c)
	assert.Equal(t, SaidSame, s.Kind)
	assert.Equal(t, last, s.Belief)
	assert.Equal(t, "as last time: 1 o'clock, 5 mm from the hole", s.Echo())

	// a bearing says little of the distance
	for _, tt := range []struct {
		as   optics.StopKind
		frac float64
	}{{optics.StopBearing, 0.35}, {optics.StopClosest, 0.22}, {optics.StopPoint, 0.22}} {
		c.Told = &event.Told{Moves: []event.ToldMove{
			{Turn: optics.Turn{Mirror: optics.Primary, Screw: "A", Turns: 0.5}, Stop: &event.ToldStop{Right: 9, As: tt.as}},
			{Turn: optics.Turn{Mirror: optics.Primary, Screw: "B", Turns: 0.5}, Stop: &event.ToldStop{Right: 3, Up: -4, As: tt.as}},
		}}
		s = must(t, "=", c)
		assert.Equal(t, SaidAsCued, s.Kind)
		assert.InDelta(t, 3, s.At.Right, 1e-9)
		assert.InDelta(t, -4, s.At.Up, 1e-9)
		along, across := sigmas(s)
		assert.InDelta(t, math.Hypot(0.7, tt.frac*5), along, 1e-9)
		assert.InDelta(t, math.Hypot(0.7, 9*math.Pi/180*5), across, 1e-9)
		assert.Equal(t, "as cued: 5 o'clock, 5 mm from the hole", s.Echo())
	}

	c.Face = optics.FaceMouth // where the cue was not told for
	_, err := Parse("=", c)
	assert.Error(t, err)
}

func TestMiddleIsWithinTheGoal(t *testing.T) {
	c := onFace(optics.FaceTarget)
	_, err := Parse("middle", c)
	assert.Error(t, err, "no goal yet")
	c.Goal = optics.Goal{At: optics.Tube{X: 1, Y: 2}, InsideMM: 0.8}
	s := must(t, "middle", c)
	assert.Equal(t, SaidMiddle, s.Kind)
	assert.Equal(t, optics.Round(0.4), s.Belief.Cov)
	assert.InDelta(t, 0, s.Belief.At.Sub(c.Goal.At).Len(), 1e-9)
}

// 12 is straight up as one stands: with the focuser seen at 3:00 from the sky
// end it is at 9:00 from behind, and the tube's frame follows it.
func TestTypedDialIsStraightUp(t *testing.T) {
	tel := readingScope()
	tel.FocuserDeg = 90
	flat := tel
	flat.Target.Flat = true
	tests := []struct {
		typed string
		face  optics.Face
		tel   optics.Telescope
		want  optics.Tube
	}{
		{"3 10", optics.FacePrimary, tel, optics.Tube{X: 10}},  // toward the focuser
		{"12 10", optics.FacePrimary, tel, optics.Tube{Y: 10}}, // looking down, left of the focuser's direction
		{"9 10", optics.FaceTarget, tel, optics.Tube{X: -10}},  // away from the tube
		{"12 10", optics.FaceTarget, tel, optics.Tube{Y: 10}},  // right of that
		{"toward the tube 10", optics.FaceTarget, tel, optics.Tube{X: 10}},
		{"away 10", optics.FaceTarget, tel, optics.Tube{X: -10}},
		{"toward the focuser 10", optics.FacePrimary, tel, optics.Tube{X: 10}},
		{"10 away from the focuser", optics.FaceSecondary, tel, optics.Tube{X: -10}},
		{"3 10", optics.FaceTarget, flat, optics.Tube{X: 10}}, // in the mirrors, from the sky end
	}
	for _, tt := range tests {
		s := must(t, tt.typed, Context{Tel: tt.tel, Face: tt.face})
		assert.InDelta(t, 0, s.Belief.At.Sub(tt.want).Len(), 1e-9, "%s on the %s: %v", tt.typed, tt.face, s.Belief.At)
	}
}

// Rings that are circles on the slanted face read √2 too long up and down it;
// up and down is toward the tube and away from it, not toward the ground.
func TestPrintedRingsOnTheSlope(t *testing.T) {
	slanted := readingScope()
	turned := readingScope()
	turned.FocuserDeg = 90 // the slope runs level
	seen := readingScope()
	seen.Target.AlongFace = false
	flat := readingScope()
	flat.Target.Flat = true
	ring := 3 + 2*2.0 // the second, outward from the hole's rim
	tests := []struct {
		name  string
		tel   optics.Telescope
		typed string
		want  float64
	}{
		{"across", slanted, "3 2r", ring},
		{"along", slanted, "6 2r", ring * math.Sqrt2 / 2},
		{"along, turned", turned, "9 2r", ring * math.Sqrt2 / 2},
		{"across, turned", turned, "12 2r", ring},
		{"toward the tube", turned, "toward the tube 2r", ring * math.Sqrt2 / 2},
		{"drawn to be seen along the tube", seen, "6 2r", ring},
		{"flat", flat, "6 2r", ring},
		{"the hole's rim", slanted, "3 0r", 3},
		{"mm are across the beam already", slanted, "6 7", 7},
	}
	for _, tt := range tests {
		s := must(t, tt.typed, Context{Tel: tt.tel, Face: optics.FaceTarget})
		assert.InDelta(t, tt.want, s.At.Len(), 1e-9, tt.name)
		assert.InDelta(t, tt.want, s.Belief.At.Len(), 1e-9, tt.name)
	}
}

func TestWaysOfWriting(t *testing.T) {
	at := func(hour, mm float64) optics.Dial { return optics.AtHour(hour, mm) }
	tests := []struct {
		typed string
		want  optics.Dial
	}{
		{"  4:30   12  ", at(4.5, 12)}, {"4:30\t12", at(4.5, 12)}, {"4:30\u00a012", at(4.5, 12)},
		{"4:30, 12 mm", at(4.5, 12)}, {"4:30,12", at(4.5, 12)}, {"4:30 12MM.", at(4.5, 12)},
		{"4½ 12", at(4.5, 12)}, {"4h30 12", at(4.5, 12)}, {"4 h 30 12", at(4.5, 12)}, {"0430 12", at(4.5, 12)},
		{"4.30 12", at(4.5, 12)}, {"4,45 12", at(4.75, 12)}, {"4.75 12", at(4.75, 12)}, {"4.25 12", at(4.25, 12)},
		{"4 o'clock 12", at(4, 12)}, {"4 O’Clock, 12", at(4, 12)}, {"4 oclock 12", at(4, 12)}, {"4 o clock 12", at(4, 12)},
		{"half past 4 12", at(4.5, 12)}, {"half past four, 12 mm", at(4.5, 12)}, {"a quarter to 5 12", at(4.75, 12)},
		{"quarter past 12 12", at(12.25, 12)}, {"a quarter past 4 12", at(4.25, 12)}, {"a quarter after 4 12", at(4.25, 12)}, {"12:30 12", at(0.5, 12)}, {"0:30 12", at(0.5, 12)},
		{"12 at 4:30", at(4.5, 12)}, {"12 mm at 430", at(4.5, 12)}, {"8 at 4", at(4, 8)}, {"4:30 at 12", at(4.5, 12)},
		{"12mm 4", at(4, 12)}, {"12 low right", at(4.5, 12)}, {"low-right 12", at(4.5, 12)},
		{"it is at 4:30, about 12 mm from the hole", at(4.5, 12)},
		{"4 0.5\"", at(4, 12.7)}, {"4 ½”", at(4, 12.7)}, {"4 1/2\"", at(4, 12.7)}, {"4 1/2 inch", at(4, 12.7)}, {"4 0.5 in", at(4, 12.7)},
		{"4 1.2 cm", at(4, 12)}, {"4 8 1/2", at(4, 8.5)}, {"4 8½", at(4, 8.5)}, {"4 .5", at(4, 0.5)},
		{"−8,5 +3", optics.Dial{Right: -8.5, Up: 3}}, {"+8.5, - 8.5", optics.Dial{Right: 8.5, Up: -8.5}},
		{"-3 4", optics.Dial{Right: -3, Up: 4}}, {"0 -5", optics.Dial{Up: -5}}, {"+5 0", optics.Dial{Right: 5}}, {"0 0", optics.Dial{}},
		{"L3 U4", optics.Dial{Right: -3, Up: 4}}, {"u4 l3", optics.Dial{Right: -3, Up: 4}}, {"5 up and 3 to the left", optics.Dial{Right: -3, Up: 5}},
		{"high 8", at(12, 8)}, {"left 8", at(9, 8)}, {"top left 8", at(10.5, 8)}, {"8 to the right", at(3, 8)},
		{"4 2r", at(4, 7/math.Hypot(math.Sin(2*math.Pi/3), math.Sqrt2*math.Cos(2*math.Pi/3)))},
		{"3 2 printed rings", at(3, 7)}, {"3 1½r", at(3, 6)}, {"2r 3", at(3, 7)}, {"3 one ring", at(3, 5)},
		{"on 4", at(4, 3)}, {"on the rim at 4", at(4, 3)}, {"low right on", at(4.5, 3)}, {"half past 4 out", at(4.5, 4)},
		{"in toward 4", at(4, 1.5)}, {"4 inside", at(4, 1.5)}, {"home, brighter at 2", at(2, 1.5)}, {"home low", at(6, 1.5)},
		{"DEAD", at(0, 0)}, {"dead centre", at(0, 0)}, {"in the hole", at(0, 0)},
	}
	for _, tt := range tests {
		s, err := Parse(tt.typed, onFace(optics.FaceTarget))
		require.NoError(t, err, tt.typed)
		assert.InDelta(t, tt.want.Right, s.At.Right, 1e-9, tt.typed)
		assert.InDelta(t, tt.want.Up, s.At.Up, 1e-9, tt.typed)
		assert.Equal(t, strings.TrimSpace(tt.typed), s.Text)
	}
}

func TestParseWidth(t *testing.T) {
	c := onFace(optics.FacePrimary)
	for typed, want := range map[string]float64{"2r": 32, "1/2 r": 8, "half": 0, "5 mm": 5, "5": 5, "0": 0, "4 12": 0, "": 0, "low": 0} {
		mm, err := ParseWidth(typed, c)
		assert.InDelta(t, want, mm, 1e-9, typed)
		understood := want > 0 || typed == "0"
		assert.Equal(t, understood, err == nil, "%s: %v", typed, err)
	}
}

func TestSigmaOfFigures(t *testing.T) {
	assert.InDelta(t, 0.55, SigmaOf(0), 1e-12)
	assert.InDelta(t, 1.32, SigmaOf(10), 0.005)
	assert.InDelta(t, 1.32, SigmaOf(-10), 0.005)
}
