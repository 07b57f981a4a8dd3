package theme

import (
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

func TestParseAndNext(t *testing.T) {
	for _, n := range Names() {
		got, err := Parse(strings.ToUpper(string(n)))
		require.NoError(t, err)
		assert.Equal(t, n, got)
	}
	_, err := Parse("amber")
	assert.EqualError(t, err, `theme "amber" is not known: choose dark, night, day or projector`)
	assert.Equal(t, Night, Dark.Next())
	assert.Equal(t, Dark, Projector.Next())
	assert.Equal(t, Dark, Name("amber").Next())
}

func TestEveryRoleHasAColourInEveryTheme(t *testing.T) {
	for _, n := range Names() {
		p, ok := table(n)
		require.True(t, ok)
		for r := Ink; r < roles; r++ {
			l := p.looks[r]
			assert.GreaterOrEqual(t, l.c256, int16(16), "%s role %d: the first 16 are whatever the user made them", n, r)
			assert.True(t, l.c16 >= 30 && l.c16 <= 37 || l.c16 >= 90 && l.c16 <= 97, "%s role %d: %d is no colour", n, r, l.c16)
		}
		assert.True(t, p.looks[Act].bold && p.looks[Typed].under, "the move and the typed text stand out without colour as well")
	}
}

func TestNightHasRedsOnly(t *testing.T) {
	p, _ := table(Night)
	for r := Ink; r < roles; r++ {
		assert.Contains(t, []int16{52, 88, 124, 160}, p.looks[r].c256, "role %d", r)
		assert.Equal(t, int16(31), p.looks[r].c16, "role %d", r)
	}
	assert.Less(t, p.looks[Huge].c256, p.looks[Act].c256, "the larger a shape, the darker")
}

func TestRedIsTheLightAndNothingElse(t *testing.T) {
	for _, n := range []Name{Dark, Day, Projector} {
		p, _ := table(n)
		for r := Ink; r < roles; r++ {
			if r != Light {
				assert.NotEqual(t, p.looks[Light].c256, p.looks[r].c256, "%s role %d", n, r)
				assert.NotEqual(t, p.looks[Light].c16, p.looks[r].c16, "%s role %d", n, r)
			}
		}
	}
}

// luminance returns the relative luminance of one of the 256 colours as xterm
// has them, by the formula of WCAG 2.1 (from memory).
func luminance(index int16) float64 {
	linear := func(v float64) float64 {
		v /= 255
		if v <= 0.04045 {
			return v / 12.92
		}
		return math.Pow((v+0.055)/1.055, 2.4)
	}
	if index >= 232 {
		return linear(float64(8 + 10*(index-232)))
	}
	levels := []float64{0, 95, 135, 175, 215, 255}
	i := index - 16
	return 0.2126*linear(levels[i/36]) + 0.7152*linear(levels[i/6%6]) + 0.0722*linear(levels[i%6])
}

func TestContrastOnTheGround(t *testing.T) {
	const dark = 233 // the terminal's own is near black
	for _, c := range []struct {
		theme  Name
		role   Role
		ground int16
		want   float64
	}{
		{Night, Ink, 16, 3.9}, {Night, Label, 16, 2.8}, {Night, Huge, 16, 2.8}, {Night, Line, 16, 1.5},
		{Day, Ink, 231, 21}, {Day, Act, 231, 15.6}, {Day, Light, 231, 5.4},
		{Dark, Ink, dark, 12}, {Dark, Act, dark, 13.5}, {Dark, Light, dark, 6.3},
		{Projector, Act, 16, 15}, {Projector, Light, 16, 7.1},
	} {
		p, _ := table(c.theme)
		a, b := luminance(p.looks[c.role].c256)+0.05, luminance(c.ground)+0.05
		assert.InEpsilon(t, c.want, math.Max(a/b, b/a), 0.05, "%s role %d", c.theme, c.role)
	}
}

// A wall in a room with a lamp on is a fifth as bright as white where nothing is
// thrown at it.
func TestTheProjectorIsReadOnAWashedOutWall(t *testing.T) {
	const room = 0.2
	p, _ := table(Projector)
	for role, l := range p.looks[Ink:] {
		assert.GreaterOrEqual(t, (luminance(l.c256)+room)/room, 2.4, "role %d", role)
	}
}

func TestPlainWritesNoEscape(t *testing.T) {
	for _, n := range Names() {
		p := New(n, Plain)
		assert.True(t, p.Plain())
		assert.False(t, p.Paints())
		assert.Equal(t, "Heron", painted(p, Typed, "Heron"))
		assert.Equal(t, "TURN", p.Heading("turn"))
	}
	assert.Equal(t, "turn", New(Dark, Colours16).Heading("turn"))
	assert.Equal(t, New(Dark, Colours16), New("amber", Colours16))
}

func painted(p Palette, r Role, s string) string { return line(p, func(w *Pen) { w.Text(r, s) }) }

func line(p Palette, write func(w *Pen)) string {
	w := NewPen(p)
	write(w)
	return w.Line()
}

func TestPenPaintsARunAtATime(t *testing.T) {
	for _, c := range []struct {
		name  string
		p     Palette
		write func(w *Pen)
		want  string
	}{
		{"nothing", New(Dark, Colours256), func(*Pen) {}, ""},
		{"one run a role", New(Dark, Colours256), func(w *Pen) { w.Text(Ink, "a"); w.Rune(Ink, 'b'); w.Blank(); w.Text(Ink, "c") },
			"\x1b[38;5;252mab c\x1b[0m"},
		{"a run where the role changes", New(Dark, Colours256), func(w *Pen) { w.Text(Ink, "a"); w.Text(Head, "b"); w.Text(Act, "c"); w.Text(Line, "d") },
			"\x1b[38;5;252ma\x1b[0m\x1b[1;38;5;252mb\x1b[0m\x1b[1;38;5;221mc\x1b[0m\x1b[38;5;240md\x1b[0m"},
		{"no underline under a gap", New(Dark, Colours16), func(w *Pen) { w.Text(Typed, "a"); w.Blank(); w.Text(Typed, "b") },
			"\x1b[1;4;97;4ma\x1b[0m \x1b[1;4;97;4mb\x1b[0m"},
		{"the end of a line is left out", New(Dark, Colours16), func(w *Pen) { w.Text(Ink, "a"); w.Blank(); w.Blank() },
			"\x1b[97ma\x1b[0m"},
		{"or painted", New(Night, Colours16), func(w *Pen) { w.Text(Ink, "a"); w.Blank(); w.Blank() },
			"\x1b[31;40ma  \x1b[0m"},
		{"an empty line is painted", New(Day, Colours256), func(w *Pen) { w.Blank(); w.Blank() },
			"\x1b[48;5;231m  \x1b[0m"},
		{"solid blocks", New(Night, Colours16), func(w *Pen) { w.Solid(Huge, "█"); w.Text(Huge, "▀"); w.Blank() },
			"\x1b[31;41m█\x1b[0m\x1b[31;40m▀ \x1b[0m"},
		{"plain", Palette{}, func(w *Pen) { w.Blank(); w.Solid(Huge, "█"); w.Blank(); w.Text(Typed, "a"); w.Blank() }, " █ a"},
	} {
		assert.Equal(t, c.want, line(c.p, c.write), c.name)
	}
}

func TestLinesLeaveNothingBehind(t *testing.T) {
	w := NewPen(New(Dark, Colours256))
	w.Text(Typed, "a")
	w.Blank()
	w.Line()
	w.Text(Ink, "b")
	assert.Equal(t, "\x1b[38;5;252mb\x1b[0m", w.Line(), "the gap and the style of the line before are forgotten")
}

// reference is a terminal that knows only what pens write.
type reference struct {
	bold, under bool
	fore, back  string
}

func (r *reference) obey(codes string) {
	parts := strings.Split(codes, ";")
	for i := 0; i < len(parts); i++ {
		switch c := parts[i]; c {
		case "", "0":
			*r = reference{}
		case "1", "22":
			r.bold = c == "1"
		case "4", "24":
			r.under = c == "4"
		case "38":
			r.fore, i = parts[i+2], i+2
		case "48":
			r.back, i = parts[i+2], i+2
		case "49":
			r.back = ""
		default:
			if c[0] == '4' || strings.HasPrefix(c, "10") {
				r.back = c
			} else {
				r.fore = c
			}
		}
	}
}

// read returns the style of every character of a line.
func read(t *rapid.T, s string) map[int]reference {
	out, now, n := map[int]reference{}, reference{}, 0
	for s != "" {
		if strings.HasPrefix(s, "\x1b[") {
			end := strings.IndexByte(s, 'm')
			now.obey(s[2:end])
			s = s[end+1:]
			continue
		}
		out[n] = now
		n++
		s = s[1:]
	}
	if now != (reference{}) {
		t.Fatalf("a line leaves %+v behind", now)
	}
	return out
}

func TestEveryCharacterGetsTheStyleOfItsRole(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := New(rapid.SampledFrom(Names()).Draw(t, "theme"), rapid.SampledFrom([]Depth{Colours16, Colours256}).Draw(t, "depth"))
		cells := rapid.SliceOfN(rapid.IntRange(0, int(roles)-1), 1, 30).Draw(t, "cells")
		got := read(t, line(p, func(w *Pen) {
			for _, r := range cells {
				if Role(r) == Ground {
					w.Blank()
				} else {
					w.Text(Role(r), "x")
				}
			}
		}))
		for i, r := range cells {
			if Role(r) == Ground {
				if g := got[i]; g.under || (p.Paints() && g.back == "") {
					t.Fatalf("empty cell %d is drawn as %+v", i, g)
				}
				continue
			}
			alone := read(t, painted(p, Role(r), "x"))[0]
			if got[i] != alone {
				t.Fatalf("cell %d of role %d is drawn as %+v, alone as %+v", i, r, got[i], alone)
			}
		}
	})
}
