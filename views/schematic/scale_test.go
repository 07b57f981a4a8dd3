package schematic

import (
	"fmt"
	"math"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"spotward/optics"
	"spotward/views/theme"
)

// reach returns how far the dots of a layer lie from the middle of a drawing,
// in dots across and up, and whether there are any.
func reach(c *Canvas, p Place, on layer) (across, up float64, any bool) {
	f := c.frameAt(p.Col, p.Row)
	for i := range c.cols * c.set.wide {
		for j := range c.rows * c.set.high {
			if l, bit := c.bit(dot{i, j}); l.dots[on]&bit != 0 {
				across, up, any = math.Max(across, math.Abs(float64(i)-f.x0)), math.Max(up, math.Abs(float64(j)-f.y0)), true
			}
		}
	}
	return across, up, any
}

// Nobody can judge by a ring that is drawn larger or smaller than it is.
func TestRingsAndRimsAreToScale(t *testing.T) {
	views := []struct {
		name  string
		rims  []float64 // mm
		thing Object
		on    layer
		mm    float64 // radius
	}{
		{"mirror's edge", []float64{125, 150, 500}, PrimaryMirror{EdgeMM: 125}, onRim, 125},
		{"where the drawing ends", []float64{24, 48}, PrimaryMirror{EdgeMM: 125}, onRim, 0},
		{"tube's wall", []float64{150, 500}, PrimaryMirror{EdgeMM: 125, WallMM: 142}, onRings, 142},
		{"ring, outer edge", []float64{12, 24, 48, 125, 150, 500}, PrimaryMirror{EdgeMM: 125, RingOuterMM: 8}, onHole, 8},
		{"ring, inner edge", []float64{12, 24, 48, 125, 150, 500}, PrimaryMirror{EdgeMM: 125, RingInnerMM: 4.5}, onHole, 4.5},
		{"face", []float64{13, 19.5, 39}, TargetPlate{FaceMM: 13, Flat: true}, onRim, 13},
		{"hole", []float64{6, 13, 19.5, 39}, TargetPlate{FaceMM: 13, HoleMM: 3, Flat: true}, onHole, 3},
		{"printed ring", []float64{20}, TargetPlate{FaceMM: 20, HoleMM: 3, RingStepMM: 9, RingCount: 1, Flat: true}, onRings, 12},
		{"drawtube", []float64{24, 48, 96}, Mouth{MouthMM: 16}, onRim, 16},
		{"drawtube, outside", []float64{24, 48, 96}, Mouth{MouthMM: 16, LipMM: 18.4}, onRings, 18.4},
		{"barrel", []float64{24, 48, 96}, Mouth{MouthMM: 16, BarrelMM: 13}, onRings, 13},
		{"hole, from the mouth", []float64{24, 48, 96}, Mouth{MouthMM: 16, HoleMM: 3}, onHole, 3},
		{"secondary", []float64{31.5, 63, 126}, SecondaryMirror{EdgeMM: 31.5}, onRim, 31.5},
		{"tube's end", []float64{142, 284}, OpenEnd{TubeMM: 142}, onRim, 142},
		{"secondary at the tube's end", []float64{142, 284}, OpenEnd{TubeMM: 142, SecondaryMM: 31.5}, onRings, 31.5},
		{"tube's end, agreed to", []float64{142}, TubeEnd{WallMM: 142, MiddleMM: 31.5}, onRings, 31.5},
	}
	for _, v := range views {
		for _, rim := range v.rims {
			for _, g := range Grids() {
				for _, o := range []Options{{}, {Glyphs: Blocks}, {Glyphs: ASCII}, {Aspect: 1.8}, {Aspect: 2.2}}[:of(1, 3, 5)] {
					c := New(g.Cols, g.Rows, o)
					c.Face(g.Face, FaceSpec{RimMM: rim, Object: v.thing})
					mm := v.mm
					if mm == 0 {
						mm = rim
					}
					at := fmt.Sprintf("%s of %v mm, rim %v mm, %dx%d, %+v", v.name, mm, rim, g.Cols, g.Rows, o)
					across, up, any := reach(c, g.Face, v.on)
					require.True(t, any, at)
					f := c.frameAt(g.Face.Col, g.Face.Row)
					if edge := 0.3; o.Glyphs != ASCII && strings.HasPrefix(v.name, "ring, ") { // one measures by it: from edge to edge of its dots
						if strings.HasSuffix(v.name, "inner edge") {
							edge = -edge
						}
						across, up = across+edge, up+edge*f.sy/f.sx
					}
					assert.InDelta(t, mm*g.Face.R/rim*f.sx, across, 0.5+1e-9, at)
					assert.InDelta(t, mm*g.Face.R/rim*f.sy, up, 0.5+1e-9, at)
				}
			}
		}
	}
}

// The secondary's edge is to scale where it stands off the outgoing spot, too.
func TestTheSecondaryStandsWhereItIs(t *testing.T) {
	for _, g := range Grids() {
		for _, o := range []Options{{}, {Glyphs: ASCII}} {
			const edge, rim = 31.5, 40.0
			middle := optics.Dial{Right: 3, Up: -2}
			c := New(g.Cols, g.Rows, o)
			c.Face(g.Face, FaceSpec{RimMM: rim, Object: SecondaryMirror{EdgeMM: edge, Middle: middle}, Bare: true, Unmeasured: true})
			f, k := c.frameAt(g.Face.Col, g.Face.Row), g.Face.R/rim
			left, right, top, low := math.Inf(1), math.Inf(-1), math.Inf(1), math.Inf(-1)
			for i := range c.cols * c.set.wide {
				for j := range c.rows * c.set.high {
					x, y := (float64(i)-f.x0)/f.sx, (float64(j)-f.y0)/f.sy
					if l, bit := c.bit(dot{i, j}); l.dots[onRim]&bit != 0 && math.Hypot(x, y) < g.Face.R-0.75 { // not where the drawing ends
						left, right = math.Min(left, float64(i)), math.Max(right, float64(i))
						top, low = math.Min(top, float64(j)), math.Max(low, float64(j))
					}
				}
			}
			at := fmt.Sprintf("%dx%d, %+v", g.Cols, g.Rows, o)
			assert.InDelta(t, f.x0+f.sx*k*middle.Right, (left+right)/2, 0.5, at)
			assert.InDelta(t, f.y0-f.sy*k*middle.Up, (top+low)/2, 0.5, at)
			assert.InDelta(t, f.sx*k*edge, (right-left)/2, 0.5, at)
			assert.InDelta(t, f.sy*k*edge, (low-top)/2, 0.5, at)
		}
	}
}

// Spots, what is typed and where to stop stand where they are, at every scale.
func TestMarksAreToScale(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		g := rapid.SampledFrom(Grids()).Draw(t, "grid")
		c := New(g.Cols, g.Rows, Options{Glyphs: glyphSets().Draw(t, "glyphs")})
		rim := rapid.Float64Range(5, 500).Draw(t, "rim")
		at := optics.AtHour(rapid.Float64Range(0, 12).Draw(t, "hour"), rim*rapid.Float64Range(0, 0.9).Draw(t, "part"))
		c.Face(g.Face, FaceSpec{RimMM: rim, Now: &Mark{At: at}, MarkScale: g.MarkScale})
		f := c.frameAt(g.Face.Col, g.Face.Row)
		i, j := f.point(at.Right*g.Face.R/rim, at.Up*g.Face.R/rim)
		if c.ASCII() { // a letter has a whole cell
			col, row := int(math.Floor(i+0.5)), (j-0.5)/2
			found := false
			for y := range g.Rows {
				if l := c.at(col, y); l.text == "@" {
					found = true
					if math.Abs(float64(y)-row) > 0.5+1e-9 {
						t.Fatalf("the letter is at row %d of %v", y, row)
					}
				}
			}
			if !found {
				t.Fatalf("no letter at column %d", col)
			}
			return
		}
		sumI, sumJ, n := 0.0, 0.0, 0.0
		for x := range c.cols * c.set.wide {
			for y := range c.rows * c.set.high {
				if l, bit := c.bit(dot{x, y}); l.dots[onSpot]&bit != 0 {
					sumI, sumJ, n = sumI+float64(x), sumJ+float64(y), n+1
				}
			}
		}
		if math.Abs(sumI/n-i) > 0.5+1e-9 || math.Abs(sumJ/n-j) > 0.5+1e-9 {
			t.Fatalf("the spot is at dot %v, %v of %v, %v", sumI/n, sumJ/n, i, j)
		}
	})
}

// drawnBar finds the scale bar on a canvas: how many dots it is long and how
// many mm it says.
func drawnBar(c *Canvas) (dots, mm float64, found bool) {
	upright := uint8(1<<c.set.high - 1)
	for row := range c.rows {
		first, last := -1, -1
		for col := range c.cols {
			l := c.at(col, row)
			for x := range c.set.wide {
				if full := upright << (x * c.set.high); isUpright(c, l, full, x) {
					if first < 0 {
						first = col*c.set.wide + x
					}
					last = col*c.set.wide + x
				}
			}
		}
		if last <= first {
			continue
		}
		for _, words := range []string{wordAt(c, last/c.set.wide+2, row), wordAt(c, first/c.set.wide, row+1), wordAt(c, last/c.set.wide, row+1),
			wordAt(c, first/c.set.wide, row-1), wordAt(c, last/c.set.wide, row-1)} {
			if m := barWords.FindStringSubmatch(words); m != nil {
				mm, _ := strconv.ParseFloat(m[1]+m[2], 64)
				if m[2] != "" {
					mm *= rulerMM
				}
				return float64(last - first), mm, true
			}
		}
	}
	return 0, 0, false
}

// barWords are what a scale bar says: in mm, or in rulers alone.
var barWords = regexp.MustCompile(`^(?:\d+r, )?([\d.]+) mm$|^(\d+)r$`)

const rulerMM = 16

// wordAt returns the words that run through a cell.
func wordAt(c *Canvas, col, row int) string {
	holds := func(col int) bool { l := c.at(col, row); return l != nil && l.text != "" && l.role == theme.Label }
	if !holds(col) {
		return ""
	}
	for holds(col - 1) {
		col--
	}
	words := ""
	for ; holds(col); col++ {
		words += c.at(col, row).text
	}
	return strings.TrimSpace(words)
}

// isUpright reports whether a word's cell has an end of a scale bar in dot
// column x.
func isUpright(c *Canvas, l *cell, full uint8, x int) bool {
	if l.role != theme.Label {
		return false
	}
	if c.ASCII() {
		return l.text == "|"
	}
	for bits := range 1 << (c.set.wide * c.set.high) {
		if l.text == string(c.set.glyph(uint8(bits))) {
			return uint8(bits)&full == full
		}
	}
	return false
}

func groundWord(g Grid) string {
	if g.Cols < 70 {
		return " "
	}
	return "ground"
}

func TestScaleBarsAreAsLongAsTheySay(t *testing.T) {
	for _, g := range Grids() {
		for _, o := range []Options{{}, {Glyphs: ASCII}, {Aspect: 1.8}, {Aspect: 2.2}}[:of(1, 2, 4)] {
			for _, rim := range []float64{4.5, 6, 13, 19.5, 24, 31.5, 48, 63, 96, 125, 142, 150, 284, 500} {
				for _, ruler := range []Ruler{{}, {rulerMM, "r"}} {
					c := New(g.Cols, g.Rows, o)
					c.Face(g.Face, FaceSpec{RimMM: rim, Within: g.FaceWords, Ruler: ruler, GroundWord: groundWord(g), FocuserWord: "focuser", FocuserHour: 2,
						Standing: []string{"stand at", "the sky end"}, Scale: []string{"mirror", "250 mm"}})
					at := fmt.Sprintf("rim %v mm, %dx%d, %+v, %+v\n%s", rim, g.Cols, g.Rows, o, ruler, c.String(theme.Palette{}))
					dots, mm, found := drawnBar(c)
					require.True(t, found, at)
					f := c.frameAt(g.Face.Col, g.Face.Row)
					assert.InDelta(t, mm*g.Face.R/rim*f.sx, dots, 0.5+1e-9, at)
					assert.GreaterOrEqual(t, dots/f.sx, 1.5, at)
					if ruler.MM > 0 && ruler.MM*g.Face.R/rim >= 4 && ruler.MM/rim <= 0.6 {
						assert.Zero(t, math.Mod(mm, ruler.MM), "in whole rings: %s", at)
					}
				}
			}
		}
	}
}

func TestScaleBarsCoverNothingAndAreNotCut(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		g := rapid.SampledFrom(Grids()).Draw(t, "grid")
		o := Options{Glyphs: rapid.SampledFrom([]Glyphs{Braille, ASCII}).Draw(t, "glyphs")}
		rim := rapid.Float64Range(5, 500).Draw(t, "rim")
		at := func(name string) *Mark {
			return &Mark{At: optics.AtHour(rapid.Float64Range(0, 12).Draw(t, name), rim*rapid.Float64Range(0, 1.4).Draw(t, name+" part")), Word: name}
		}
		s := FaceSpec{RimMM: rim, Within: g.FaceWords, GroundWord: groundWord(g), FocuserWord: "focuser", MarkScale: g.MarkScale,
			FocuserHour: rapid.Float64Range(0, 12).Draw(t, "focuser"), Standing: []string{"stand at", "sky end"}, Scale: []string{"mirror", "250 mm"},
			Now: at("now"), Ghost: at("typed"), Cue: at("stop")}
		c := New(g.Cols, g.Rows, o)
		c.Face(g.Face, s)
		dots, mm, found := drawnBar(c)
		if !found {
			t.Fatalf("no bar:\n%s", c.String(theme.Palette{}))
		}
		if f := c.frameAt(g.Face.Col, g.Face.Row); math.Abs(dots-mm*g.Face.R/rim*f.sx) > 0.5+1e-9 {
			t.Fatalf("%v dots for %v mm", dots, mm)
		}
		// What the corners hold, drawn once more without it: there was nothing.
		bare := New(g.Cols, g.Rows, o)
		s.Unmeasured, s.Scale = true, nil
		bare.Face(g.Face, s)
		for row := range c.rows {
			for col := range c.cols {
				l, was := c.at(col, row), bare.at(col, row)
				if l.text == "" || l.text == was.text || l.role != theme.Label {
					continue
				}
				if w := g.FaceWords; col < w.X || row < w.Y || col >= w.X+w.W || row >= w.Y+w.H {
					t.Fatalf("at %d, %d it stands where no words may:\n%s", col, row, c.String(theme.Palette{}))
				}
				if moved := strings.ContainsAny(l.text, "(AB)focuserground"); was.any(onRings) && !moved {
					t.Fatalf("at %d, %d it covers something:\n%s", col, row, c.String(theme.Palette{}))
				}
			}
		}
	})
}

// Where there is no room for it, it is left out rather than cut.
func TestAScaleBarIsLeftOutRatherThanCut(t *testing.T) {
	for w := range 30 {
		c := New(60, 18, Options{})
		within := Rect{13 - w/2, 2, w, 12}
		c.Face(Place{13, 7, 10.75}, FaceSpec{RimMM: 125, Within: within, Bare: true})
		for row := range c.rows {
			for col := range c.cols {
				if c.at(col, row).text != "" {
					assert.True(t, within.X <= col && col < within.X+max(w, 1), "%d columns: at %d, %d", w, col, row)
				}
			}
		}
		if dots, mm, found := drawnBar(c); found {
			assert.InDelta(t, mm*10.75/125*2, dots, 0.5)
		}
	}
}

// Of two spots on the secondary the one that came back is hollow.
func TestTheReturnSpotIsHollow(t *testing.T) {
	p := Place{20, 10, 14.75}
	for _, o := range []Options{{}, {Glyphs: ASCII}} {
		c := New(42, 22, o)
		c.Face(p, FaceSpec{RimMM: 40, Object: SecondaryMirror{EdgeMM: 31.5}, Now: mark(3, 20, "")})
		f := c.frameAt(p.Col, p.Row)
		if c.ASCII() {
			out, _ := c.Cell(p.Col, p.Row)
			back, _ := c.Cell(f.cell(20*p.R/40, 0))
			assert.Equal(t, []string{"@", "O"}, []string{out, back})
			continue
		}
		filled := func(x float64, on layer) bool {
			l, bit := c.bit(f.nearest(x, 0))
			return l.dots[on]&bit != 0
		}
		assert.True(t, filled(0, onCue), "the outgoing one is full")
		assert.False(t, filled(20*p.R/40, onSpot), "the return spot is hollow")
		_, _, any := reach(c, p, onSpot)
		assert.True(t, any)
	}
}
