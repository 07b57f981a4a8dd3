package schematic

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"

	"spotward/optics"
	"spotward/views/theme"
)

func TestRimForHoldsEveryMark(t *testing.T) {
	for _, c := range []struct {
		name string
		s    FaceSpec
		want float64
	}{
		{"nothing to hold", FaceSpec{}, 12},
		{"a spot", FaceSpec{Now: mark(3, 11, "")}, 12},
		{"at the very rim there is no room for it", FaceSpec{Now: mark(3, 11.9, "")}, 20},
		{"what is typed", FaceSpec{Now: mark(3, 2, ""), Ghost: mark(3, 40, "")}, 60},
		{"where to stop", FaceSpec{Cue: mark(3, 14, "")}, 20},
		{"the trail", FaceSpec{Trail: []Mark{*mark(3, 30, ""), *mark(3, 1, "")}}, 60},
		{"too far for all", FaceSpec{Now: mark(3, 900, "")}, 60},
	} {
		assert.Equal(t, c.want, RimFor(c.s, 12, 20, 60), c.name)
	}
	assert.Zero(t, RimFor(FaceSpec{}))
}

// middleOf returns the middle of the dots of a role, in columns from the middle
// of a face at p.
func middleOf(c *Canvas, p Place, role theme.Role) (x, y float64) {
	f, n := c.frameAt(p.Col, p.Row), 0.0
	for d, r := range shownDots(c) {
		if r == role {
			x, y, n = x+float64(d.i), y+float64(d.j), n+1
		}
	}
	return (x/n - f.x0) / f.sx, (f.y0 - y/n) / f.sy
}

func TestSpotsStandWhereTheyAre(t *testing.T) {
	p := Place{20, 10, 14.5}
	for _, c := range []struct {
		name         string
		at           optics.Dial
		turn         float64
		wantX, wantY float64
	}{
		{"middle", optics.Dial{}, 0, 0, 0},
		{"three o'clock is right", optics.AtHour(3, 10), 0, 10, 0},
		{"twelve is up", optics.AtHour(0, 10), 0, 0, 10},
		{"half past seven", optics.AtHour(7.5, 8), 0, -8 * math.Sqrt2 / 2, -8 * math.Sqrt2 / 2},
		{"the dial turned an hour and a half clockwise", optics.AtHour(0, 8), 1.5, 8 * math.Sqrt2 / 2, 8 * math.Sqrt2 / 2},
	} {
		for _, term := range []Options{{}, {Aspect: 1.8}, {Aspect: 2.3}} {
			canvas := New(42, 22, term)
			canvas.Face(p, FaceSpec{RimMM: 14.5, Now: &Mark{At: c.at}, TurnHours: c.turn})
			x, y := middleOf(canvas, p, theme.Light)
			assert.InDelta(t, c.wantX, x, 0.4, "%s at %+v", c.name, term)
			assert.InDelta(t, c.wantY, y, 0.4, "%s at %+v", c.name, term)
		}
	}
}

func TestBeyondTheRimAWedgePointsThere(t *testing.T) {
	p := Place{20, 10, 14.5}
	c := New(42, 22, Options{})
	c.Face(p, FaceSpec{RimMM: 14.5, Now: mark(9, 90, "now")})
	x, y := middleOf(c, p, theme.Light)
	assert.InDelta(t, -13, x, 1)
	assert.InDelta(t, 0, y, 0.1)
}

func TestTheKeyEndsWhereTheTurnDoes(t *testing.T) {
	p := Place{20, 10, 14.5}
	for _, c := range []struct {
		name  string
		s     KeySpec
		angle float64 // of the tip, degrees clockwise from 12
	}{
		{"an eighth", KeySpec{Turns: 1.0 / 8}, 45},
		{"a quarter back", KeySpec{Turns: -1.0 / 4}, -90},
		{"from three o'clock", KeySpec{FromHour: 3, Turns: 1.0 / 4}, 180},
	} {
		canvas := New(42, 22, Options{})
		canvas.Key(p, c.s)
		f := canvas.frameAt(p.Col, p.Row)
		from, sense := c.s.FromHour*30, math.Copysign(1, c.s.Turns)
		far := 0.0
		for d, role := range shownDots(canvas) {
			if role != theme.Act {
				continue
			}
			a := math.Atan2(float64(d.i)-f.x0, f.y0-float64(d.j)) * 180 / math.Pi
			a = sense * (a - from)
			if a < -90 {
				a += 360
			}
			far = math.Max(far, a)
		}
		assert.InDelta(t, sense*(c.angle-from), far, 3, c.name)
	}
}

func TestMissesAreEnlargedByAsMuchAsTheTubeHolds(t *testing.T) {
	for _, c := range []struct{ miss, want float64 }{{0, 100}, {1, 50}, {10, 5}, {30, 2}, {60, 1}, {500, 1}} {
		s := missPath()
		s.Out = s.Out[:2]
		s.Back[0].Miss, s.Back[2].Miss = SectionPoint{}, SectionPoint{}
		s.Back[1].Miss = SectionPoint{UpMM: -c.miss}
		assert.Equal(t, c.want, New(60, 16, Options{}).LightPath(Rect{0, 0, 60, 16}, s), "%v mm", c.miss)
	}
	s := missPath()
	s.Times = 7
	assert.Equal(t, 7.0, New(60, 16, Options{}).LightPath(Rect{0, 0, 60, 16}, s))
	assert.Zero(t, New(60, 16, Options{}).LightPath(Rect{0, 0, 60, 16}, PathSpec{}))
}

func TestADigitGivesWayToASpot(t *testing.T) {
	draw := func(mm float64) (*Canvas, int) {
		c, n := New(42, 22, Options{}), 0
		c.Face(Place{20, 10, 14.75}, FaceSpec{RimMM: 14.75, Now: mark(3, mm, "")})
		for _, role := range shownDots(c) {
			if role == theme.Light {
				n++
			}
		}
		return c, n
	}
	inside, whole := draw(8)
	atRim, n := draw(14.7)
	assert.Equal(t, whole, n, "the spot is seen whole")
	digit, _ := inside.Cell(36, 10)
	assert.Equal(t, "3", digit)
	spot, role := atRim.Cell(36, 10)
	assert.NotEqual(t, "3", spot)
	assert.Equal(t, theme.Light, role)
}
