package schematic

import (
	"math"
	"regexp"
	"testing"
	"unicode"

	"github.com/charmbracelet/x/ansi"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"spotward/optics"
	"spotward/views/theme"
)

// shownDots returns all dots that are seen, with their roles.
func shownDots(c *Canvas) map[dot]theme.Role {
	out := map[dot]theme.Role{}
	for row := range c.rows {
		for col := range c.cols {
			bits, role := c.at(col, row).shown()
			for b := range c.set.wide * c.set.high {
				if bits>>b&1 == 1 {
					out[dot{col*c.set.wide + b/c.set.high, row*c.set.high + b%c.set.high}] = role
				}
			}
		}
	}
	return out
}

func glyphSets() *rapid.Generator[Glyphs] { return rapid.SampledFrom([]Glyphs{Braille, Blocks, ASCII}) }

func TestCirclesAreTheSameOnAllFourSides(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := New(90, 60, Options{Glyphs: glyphSets().Draw(t, "glyphs"), Aspect: rapid.Float64Range(1.5, 2.5).Draw(t, "aspect")})
		f := c.frameAt(45, 30)
		r := rapid.Float64Range(0.5, 40).Draw(t, "r")
		seen := map[dot]bool{}
		for _, d := range f.circle(r, 1, nil) {
			seen[d] = true
		}
		for d := range seen {
			u, v := float64(d.i)-f.x0, float64(d.j)-f.y0
			for _, m := range []dot{{round(f.x0 - u), d.j}, {d.i, round(f.y0 - v)}} {
				if !seen[m] {
					t.Fatalf("dot %v has no mirror image %v at R %v", d, m, r)
				}
			}
		}
	})
}

func TestCirclesAreRoundAndClosed(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		aspect := rapid.Float64Range(1.75, 2.2).Draw(t, "aspect")
		c := New(90, 60, Options{Aspect: aspect})
		f := c.frameAt(45, 30)
		r := rapid.Float64Range(8, 40).Draw(t, "r")
		dots := f.circle(r, 1, nil)
		wide, high := 0.0, 0.0
		near := map[dot]bool{}
		for _, d := range dots {
			x, y := (float64(d.i)-f.x0)/f.sx, (float64(d.j)-f.y0)/f.sy
			wide, high = math.Max(wide, math.Abs(x)), math.Max(high, math.Abs(y))
			near[d] = true
			// Within a dot and its snapping of the true circle.
			if math.Abs(math.Hypot(x, y)-r) > 0.55 {
				t.Fatalf("dot at %v, %v on a circle of R %v", x, y, r)
			}
		}
		// Each radius is snapped by half a dot at most.
		if math.Abs(wide-high) > 0.5*(1/f.sx+1/f.sy)+1e-9 {
			t.Fatalf("%v wide, %v high", wide, high)
		}
		for d := range near {
			n := 0
			for di := -1; di <= 1; di++ {
				for dj := -1; dj <= 1; dj++ {
					if near[dot{d.i + di, d.j + dj}] {
						n++
					}
				}
			}
			if n < 3 {
				t.Fatalf("gap beside dot %v at R %v, aspect %v", d, r, aspect)
			}
		}
	})
}

// mirrored draws twice, the second time the other way round, and checks that
// the dots are mirror images about the middle column.
func mirrored(t *rapid.T, col int, one, other func(c *Canvas)) {
	a, b := New(2*col+1, 40, Options{}), New(2*col+1, 40, Options{})
	one(a)
	other(b)
	want := map[dot]theme.Role{}
	for d, role := range shownDots(a) {
		want[dot{4*col + 1 - d.i, d.j}] = role
	}
	if got := shownDots(b); !assert.ObjectsAreEqual(want, got) {
		t.Fatalf("not mirror images:\n%s\n%s", a.String(theme.Palette{}), b.String(theme.Palette{}))
	}
}

func TestAnticlockwiseIsClockwiseMirrored(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		turns := float64(rapid.IntRange(1, 40).Draw(t, "sixteenths")) / 16
		bold := rapid.Bool().Draw(t, "bold")
		p := Place{20, 20, rapid.Float64Range(4, 16).Draw(t, "r")}
		mirrored(t, p.Col, func(c *Canvas) { c.Key(p, KeySpec{Turns: turns, Bold: bold}) },
			func(c *Canvas) { c.Key(p, KeySpec{Turns: -turns, Bold: bold}) })
	})
}

func TestMirroredSpotsMakeMirroredFaces(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		// Thirds never fall halfway between dots, where rounding must take a
		// side.
		at := func(name string) optics.Dial {
			return optics.Dial{Right: float64(rapid.IntRange(-20, 20).Draw(t, name+" right"))/3 + 0.01,
				Up: float64(rapid.IntRange(-20, 20).Draw(t, name+" up")) / 3}
		}
		now, cue := at("now"), at("cue")
		draw := func(sign float64) func(c *Canvas) {
			return func(c *Canvas) {
				flip := func(p optics.Dial) optics.Dial { return optics.Dial{Right: sign * p.Right, Up: p.Up} }
				c.Face(Place{20, 12, 14.75}, FaceSpec{RimMM: 13, Object: TargetPlate{HoleMM: 3, FaceMM: 13, RingStepMM: 2, RingCount: 5},
					Now: &Mark{At: flip(now)}, Cue: &Mark{At: flip(cue)}})
				// The label 12 cannot be symmetrical: it stands on one side.
				for row := range c.rows {
					for col := range c.cols {
						*c.at(col, row) = cell{dots: c.at(col, row).dots, ink: c.at(col, row).ink}
					}
				}
			}
		}
		mirrored(t, 20, draw(1), draw(-1))
	})
}

var escapes = regexp.MustCompile("\x1b\\[[0-9;]*m")

// checkLines checks what every picture must be: as many rows as asked for, none
// too wide, and nothing in it that a terminal obeys but colours.
func checkLines(t require.TestingT, c *Canvas, cols, rows int, p theme.Palette) {
	lines := c.Lines(p)
	require.Len(t, lines, rows)
	for _, line := range lines {
		require.LessOrEqual(t, ansi.StringWidth(line), cols)
		for _, r := range escapes.ReplaceAllString(line, "") {
			require.False(t, unicode.IsControl(r), "control character %U in %q", r, line)
		}
		if p.Plain() {
			require.NotContains(t, line, "\x1b")
		}
		if p.Paints() && cols > 0 {
			require.Equal(t, cols, ansi.StringWidth(line), "a painted line covers its row")
		}
	}
}

func TestAnySizeHoldsAnyScreen(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		cols, rows := rapid.IntRange(0, 200).Draw(t, "cols"), rapid.IntRange(0, 60).Draw(t, "rows")
		g := rapid.SampledFrom(Grids()).Draw(t, "grid")
		c := New(cols, rows, Options{Glyphs: glyphSets().Draw(t, "glyphs"), Aspect: rapid.Float64Range(0, 5).Draw(t, "aspect")})
		mockOn(c, g)
		p := theme.New(rapid.SampledFrom(theme.Names()).Draw(t, "theme"),
			rapid.SampledFrom([]theme.Depth{theme.Plain, theme.Colours16, theme.Colours256}).Draw(t, "depth"))
		checkLines(t, c, cols, rows, p)
	})
}

// wild are figures nobody should hand over, and some that are merely large.
func wild() *rapid.Generator[float64] {
	return rapid.OneOf(rapid.SampledFrom([]float64{math.NaN(), math.Inf(1), math.Inf(-1), 1e308, -1e308, 1e-308, 0, -1}), rapid.Float64Range(-300, 300))
}

func TestWildFiguresAreDrawnOrLeftOut(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		w := func(name string) float64 { return wild().Draw(t, name) }
		at := func(name string) optics.Dial { return optics.Dial{Right: w(name), Up: w(name)} }
		c := New(40, 20, Options{Glyphs: glyphSets().Draw(t, "glyphs")})
		p := Place{20, 10, w("R")}
		for _, o := range []Object{nil,
			PrimaryMirror{w("edge"), w("wall"), w("inner"), w("outer")},
			TargetPlate{HoleMM: w("hole"), FaceMM: w("face"), RingStepMM: w("step"), RingCount: 5, AlongFace: true, AwayWord: "away"},
			SecondaryMirror{w("edge"), at("middle"), "out"},
			Mouth{w("mouth"), w("lip"), w("barrel"), w("hole")},
			OpenEnd{w("tube"), w("holder"), CoverHalf, w("cover"), "look"},
			TubeEnd{w("wall"), w("middle"), []float64{w("vane")}},
			Responses{[]Arrow{{"A", at("arrow"), w("sigma"), true}}},
		} {
			c.Face(p, FaceSpec{RimMM: w("rim"), Object: o, FocuserHour: w("focuser"), FocuserWord: "focuser", TurnHours: w("turn"),
				MarkScale: w("scale"), Now: &Mark{at("now"), "now"}, Ghost: &Mark{at("ghost"), "typed"}, Cue: &Mark{at("cue"), "stop"},
				Legs: []Leg{{at("from"), at("to"), true}}, Trail: []Mark{{at("trail"), "1"}, {at("trail"), "2"}}})
		}
		c.Key(p, KeySpec{w("from"), w("turns"), true, "1:30"})
		c.Plate(p, PlateSpec{Screws: []Screw{{"A", w("hour"), false, 0.25}, {"B", w("hour"), true, 0}}, BoltWord: "never"})
		c.Bar(0, 0, 40, BarSpec{Value: w("v"), Allowed: w("a"), Full: w("f")})
		path := missPath()
		path.TubeMM, path.SkyEndMM, path.FoldMM, path.Times = w("tube"), w("sky"), w("fold"), w("times")
		path.Back[1].Miss.UpMM = w("miss")
		path.Dims = []Dim{{SectionPoint{w("x"), w("y")}, SectionPoint{w("x"), w("y")}, "long"}}
		c.LightPath(Rect{0, 0, 40, 20}, path)
		checkLines(t, c, 40, 20, theme.Palette{})
	})
}

func TestWordsCoverNoMark(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		at := func(name string) *Mark {
			return mark(rapid.Float64Range(0, 12).Draw(t, name+" hour"), rapid.Float64Range(0, 14).Draw(t, name+" mm"), "")
		}
		now, ghost, cue := at("now"), at("ghost"), at("cue")
		draw := func(words ...string) *Canvas {
			c := New(42, 22, Options{})
			now.Word, ghost.Word, cue.Word = words[0], words[1], words[2]
			c.Face(Place{20, 10, 14.75}, FaceSpec{RimMM: 15, Object: plate(false), FocuserHour: 10, Now: now, Ghost: ghost, Cue: cue})
			return c
		}
		bare, full := draw("", "", ""), draw("now", "typed", "stop")
		for row := range bare.rows {
			for col := range bare.cols {
				if bare.at(col, row).any(onCue) && bare.at(col, row).text == "" && full.at(col, row).text != "" {
					t.Fatalf("a word covers a mark:\n%s", full.String(theme.Palette{}))
				}
			}
		}
	})
}

func TestAMarkedCellShowsMarksOnly(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := New(42, 22, Options{})
		c.Face(Place{20, 10, 14.75}, FaceSpec{RimMM: 15, Object: plate(false),
			Now: mark(rapid.Float64Range(0, 12).Draw(t, "hour"), rapid.Float64Range(0, 14).Draw(t, "mm"), "now")})
		for d, role := range shownDots(c) {
			l, bit := c.bit(d)
			if role == theme.Light && l.dots[onSpot]&bit == 0 {
				t.Fatalf("dot %v of another layer is drawn as light", d)
			}
		}
	})
}

func TestHoursClearTheRimAtAnyAngle(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := float64(rapid.IntRange(20, 60).Draw(t, "half columns")) / 2
		c := New(80, 44, Options{Aspect: rapid.Float64Range(1.75, 2.2).Draw(t, "aspect")})
		c.Face(Place{40, 22, r}, FaceSpec{RimMM: 10, TurnHours: rapid.Float64Range(0, 12).Draw(t, "turn")})
		digits := 0
		for row := range c.rows {
			for col := range c.cols {
				l := c.at(col, row)
				if l.text == "" || l.role != theme.Ink {
					continue // the scale bar stands far off
				}
				digits++
				if l.dots[onRim] != 0 {
					t.Fatalf("a digit on the rim at R %v:\n%s", r, c.String(theme.Palette{}))
				}
			}
		}
		if digits != 5 {
			t.Fatalf("%d digits of 5", digits)
		}
	})
}
