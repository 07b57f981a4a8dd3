package schematic

import (
	"flag"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"spotward/optics"
	"spotward/views/theme"
)

var update = flag.Bool("update", false, "write the golden drawings anew: then look at them")

// drawings are the things that can be drawn, each on a canvas of its own.
var drawings = []struct {
	name       string
	cols, rows int
	draw       func(c *Canvas)
}{
	{"primary-far", 44, 22, func(c *Canvas) {
		face(c, FaceSpec{RimMM: 142, Object: heronPrimary, FocuserHour: 2, FocuserWord: "focuser", Now: mark(7.5, 58, "now")})
	}},
	{"primary-near", 44, 22, func(c *Canvas) {
		face(c, FaceSpec{RimMM: 20, RimWord: "rim 20 mm", Object: heronPrimary, FocuserHour: 2, FocuserWord: "focuser",
			Now: mark(2, 12, "now"), Cue: mark(0, 0, "stop"), Legs: []Leg{{From: optics.AtHour(2, 12)}}})
	}},
	{"secondary", 44, 22, func(c *Canvas) {
		face(c, FaceSpec{RimMM: 40, Object: SecondaryMirror{EdgeMM: 31.5, Middle: optics.Dial{Right: 3, Up: -4}, OutWord: "outgoing"},
			FocuserHour: 2, FocuserWord: "focuser", Now: mark(7, 17, "return")})
	}},
	{"target", 44, 22, func(c *Canvas) {
		face(c, FaceSpec{RimMM: 15.5, Object: plate(false), FocuserHour: 10, Now: mark(4.5, 9, "now"), Ghost: mark(5.5, 7.5, "typed"),
			Cue: mark(6.3, 4, "stop"), Legs: []Leg{{From: optics.AtHour(4.5, 9), To: optics.AtHour(6.3, 4)}, {From: optics.AtHour(6.3, 4), Second: true}}})
	}},
	{"target-along", 44, 22, func(c *Canvas) {
		face(c, FaceSpec{RimMM: 15.5, Object: plate(true), FocuserHour: 12, Now: mark(0, 0, "home")})
	}},
	{"target-turned", 44, 22, func(c *Canvas) {
		face(c, FaceSpec{RimMM: 15.5, Object: plate(false), FocuserHour: 10, TurnHours: 2, Now: mark(4.5, 9, "now")})
	}},
	{"beyond-rim", 44, 22, func(c *Canvas) {
		face(c, FaceSpec{RimMM: 15.5, Object: plate(false), FocuserHour: 12, Now: mark(4.5, 30, "now"), Ghost: mark(9, 40, "typed")})
	}},
	{"trail", 44, 22, func(c *Canvas) {
		face(c, FaceSpec{RimMM: 17, Object: plate(false), FocuserHour: 10, Now: mark(4.5, 9, "7 now"),
			Trail: []Mark{*mark(2.2, 15.5, "5"), *mark(4, 15, "6")}})
	}},
	{"mouth", 44, 22, func(c *Canvas) {
		face(c, FaceSpec{RimMM: 36, Object: Mouth{MouthMM: 26, LipMM: 30, BarrelMM: 16, HoleMM: 3}, Now: mark(4, 20, "now")})
	}},
	{"open-end", 44, 22, func(c *Canvas) {
		face(c, FaceSpec{RimMM: 142, Object: OpenEnd{TubeMM: 142, SecondaryMM: 34, Card: CoverHalf, CoverHour: 4, LookWord: "look in here"},
			FocuserHour: 2, FocuserWord: "focuser", Now: mark(4, 70, "beam")})
	}},
	{"tube-end", 44, 22, func(c *Canvas) {
		face(c, FaceSpec{RimMM: 142, Object: TubeEnd{WallMM: 142, MiddleMM: 34, VaneHours: []float64{2, 5, 8, 11}}, FocuserHour: 2, FocuserWord: "focuser"})
	}},
	{"responses", 44, 22, func(c *Canvas) {
		face(c, FaceSpec{RimMM: 60, RimWord: "60 mm a turn", Object: Responses{Arrows: []Arrow{
			{Label: "A", To: optics.AtHour(4, 50), SigmaMM: 9}, {Label: "B", To: optics.AtHour(11, 40), SigmaMM: 8, Act: true},
			{Label: "C", To: optics.AtHour(8, 80), SigmaMM: 9}}}})
	}},
	{"plate-primary", 30, 14, func(c *Canvas) { c.Plate(Place{13, 6, 8.75}, cellPlate(Rect{0, 0, 30, 14})) }},
	{"plate-secondary", 34, 16, func(c *Canvas) {
		c.Plate(Place{17, 7, 10.75}, PlateSpec{Standing: []string{"at the", "sky end"}, BoltWord: "never", FocuserHour: 2, FocuserWord: "focuser",
			GroundWord: "ground", Screws: []Screw{{Label: "A", Hour: 2}, {Label: "B", Hour: 6, Turns: -0.125}, {Label: "C", Hour: 10}}})
	}},
	{"key", 60, 10, func(c *Canvas) {
		c.Key(Place{9, 5, 7.75}, KeySpec{Turns: 1.0 / 8, EndWord: "1:30"})
		c.Key(Place{29, 5, 7.75}, KeySpec{Turns: -1.0 / 4})
		c.Key(Place{49, 5, 7.75}, KeySpec{Turns: 1.0 / 16, FromHour: 3})
	}},
	{"big", 100, 24, func(c *Canvas) {
		c.Big(0, 0, BigSpec{Text: "0123456789/:.-m", Role: theme.Huge})
		c.Big(0, 5, BigSpec{Text: "ABCDEFGHIJKLM", Role: theme.Huge})
		c.Big(0, 10, BigSpec{Text: "ABCD12P", Size: Tall, Role: theme.Huge})
		c.Big(0, 15, BigSpec{Text: "3/16", Size: SmallDouble, Role: theme.Huge})
		c.Big(60, 10, BigSpec{Text: "BC", Size: TallDouble, Role: theme.Huge})
	}},
	{"light-path", 64, 16, func(c *Canvas) { c.LightPath(Rect{0, 0, 64, 16}, missPath()) }},
	{"measures", 64, 16, func(c *Canvas) {
		p := missPath()
		p.Out, p.Back = nil, nil
		p.Dims = []Dim{{SectionPoint{0, 0}, SectionPoint{970, 0}, "mirror to secondary"}, {SectionPoint{970, 0}, SectionPoint{970, 250}, "axis to face"}}
		c.LightPath(Rect{0, 0, 64, 16}, p)
	}},
}

var heronPrimary = PrimaryMirror{EdgeMM: 125, WallMM: 142, RingInnerMM: 4.5, RingOuterMM: 8}

func plate(along bool) TargetPlate {
	return TargetPlate{HoleMM: 3, FaceMM: 13, RingStepMM: 2, RingCount: 5, AlongFace: along, TubeWord: "tube", AwayWord: "away"}
}

func mark(hour, mm float64, word string) *Mark { return &Mark{optics.AtHour(hour, mm), word} }

func face(c *Canvas, s FaceSpec) {
	s.Standing, s.GroundWord = []string{"stand", "here"}, "ground"
	c.Face(Place{20, 10, 14.75}, s)
}

func TestDrawings(t *testing.T) {
	for _, term := range terminals {
		if term.o.Glyphs == Blocks {
			continue // the same drawings as braille, in coarser dots
		}
		var all strings.Builder
		for _, d := range drawings {
			c := New(d.cols, d.rows, term.o)
			d.draw(c)
			all.WriteString("-- " + d.name + "\n" + c.String(theme.Palette{}) + "\n")
		}
		golden(t, "all-"+term.name, all.String())
	}
}

func TestScreens(t *testing.T) {
	for _, g := range Grids() {
		for _, term := range terminals {
			screen := mockScreen(g, term.o).String(theme.Palette{})
			require.Len(t, strings.Split(screen, "\n"), g.Rows)
			if g.Cols == 80 && term.o.Glyphs == Blocks {
				golden(t, "screen-80x24-"+term.name, screen)
			}
		}
	}
}

func golden(t *testing.T, name, got string) {
	t.Helper()
	file := filepath.Join("..", "..", "testdata", "screens", "drawings", name+".txt")
	if *update {
		require.NoError(t, os.MkdirAll(filepath.Dir(file), 0o755))
		require.NoError(t, os.WriteFile(file, []byte(got+"\n"), 0o644))
	}
	want, err := os.ReadFile(file)
	require.NoError(t, err)
	assert.Equal(t, string(want), got+"\n", "the drawing differs from %s: look at it, then run with -update", file)
}
