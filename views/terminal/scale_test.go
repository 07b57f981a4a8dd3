package terminal

import (
	"fmt"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"spotward/optics"
	"spotward/session"
	"spotward/session/event"
	"spotward/session/reading"
	"spotward/session/sessiontest"
	"spotward/views/desk"
	"spotward/views/schematic"
	"spotward/views/terminal/align"
	"spotward/views/terminal/frame"
)

var (
	barOnScreen = regexp.MustCompile(`⡧⠤*(?:[⡇⢼])|\|-+\|`)
	barSays     = regexp.MustCompile(`(?:\d+r, )?([\d.]+) mm|(\d+)r`)
)

// shownIn returns the part of a screen that lies in r, a rune a column.
func shownIn(view string, r schematic.Rect) []string {
	var out []string
	for _, l := range lines(view)[r.Y : r.Y+r.H] {
		runes := []rune(l + strings.Repeat(" ", r.X+r.W))
		out = append(out, string(runes[r.X:r.X+r.W]))
	}
	return out
}

// barIn finds the scale bar in a part of a screen: its length in dots and what
// it says in mm. A word over or under it is right above or below.
func barIn(rows []string, ascii bool, ruler float64) (dots, mm float64, ok bool) {
	for i, row := range rows {
		at := barOnScreen.FindStringIndex(row)
		if at == nil {
			continue
		}
		bar := []rune(row[at[0]:at[1]])
		dots = float64(2 * (len(bar) - 1))
		if bar[len(bar)-1] == '⢼' {
			dots++
		}
		if ascii {
			dots = float64(len(bar) - 1)
		}
		from := len([]rune(row[:at[0]]))
		near := []string{row[at[1]:]}
		for _, j := range []int{i + 1, i - 1} {
			if j >= 0 && j < len(rows) {
				near = append(near, string([]rune(rows[j])[max(0, from-4):]))
			}
		}
		for _, words := range near {
			if m := barSays.FindStringSubmatch(words); m != nil {
				mm, _ = strconv.ParseFloat(m[1]+m[2], 64)
				if m[2] != "" {
					mm *= ruler
				}
				return dots, mm, true
			}
		}
	}
	return 0, 0, false
}

// Whatever is asked, at every size: how long the bar is, and what the outline is
// and how wide.
func TestEveryFaceHasItsScale(t *testing.T) {
	faces := map[optics.Face]int{}
	seeds := uint64(sessiontest.Of(1, 1, 3))
	for _, size := range [][2]int{{60, 18}, {120, 36}, {80, 24}, {200, 50}}[:sessiontest.Of(1, 2, 4)] {
		for _, o := range []Options{{}, {ASCII: true}, {Projector: true}} {
			for seed := range seeds {
				p := practising(t, seed, size[0], size[1], o, env())
				p.plays(func(ask session.Ask) bool {
					s := p.align()
					sz, ok := frame.SizesFor(size[0], size[1], o.Projector, o.ASCII)
					require.True(t, ok)
					if ask.Face == "" {
						return false
					}
					faces[ask.Face]++
					st := s.State()
					spec := s.FaceSpec(sz, "")
					if view, ok := s.Work.Look(ask.Face); ok && s.Looking() {
						spec = align.SightOf(st.Tel, ask.Face, view, sz)
					}
					at := fmt.Sprintf("%v %+v %s %s\n%s", size, o, ask.Step, ask.Face, p.View())
					rows := shownIn(p.View(), sz.FaceWords)
					dots, mm, ok := barIn(rows, o.ASCII, reading.RingWidthMM(st.Tel))
					require.True(t, ok, at)
					wide := 2.0
					if o.ASCII {
						wide = 1
					}
					require.InDelta(t, mm*sz.Face.R/spec.RimMM*wide, dots, 0.5+1e-9, at)
					name, across := align.Outline(st.Tel, ask.Face, spec.RimMM)
					require.Contains(t, strings.Join(rows, "\n"), name, at)
					require.Contains(t, strings.Join(rows, "\n"), align.WidthText(across), at)
					return false
				})
			}
		}
	}
	for _, f := range []optics.Face{optics.FacePrimary, optics.FaceTarget} {
		assert.Positive(t, faces[f], f)
	}
}

// The faces of the search as well, which an easy telescope does not come to.
func TestEveryRungOfTheSearchHasItsScale(t *testing.T) {
	sessiontest.Whole(t)
	tel := scopeNamed(t, "dunlin").Telescope()
	for _, f := range []optics.Face{optics.FacePrimary, optics.FaceTarget, optics.FaceMouth, optics.FaceSecondary, optics.FaceCard} {
		for _, rim := range align.Rims(tel, f) {
			for _, g := range schematic.Grids() {
				for _, glyphs := range []schematic.Glyphs{schematic.Braille, schematic.ASCII} {
					sz, ok := frame.SizesFor(g.Cols, g.Rows, g.Projector, glyphs == schematic.ASCII)
					require.True(t, ok)
					spec := align.SeenFrom(tel, f, sz)
					spec.RimMM = rim
					align.Measured(&spec, tel, f, sz)
					spec.Now = &schematic.Mark{At: optics.AtHour(4.5, 0.7*rim), Word: align.NowWord(f)}
					c := schematic.New(g.Cols, g.Rows, schematic.Options{Glyphs: glyphs})
					c.Face(sz.Face, spec)
					var rows []string
					for y := range g.Rows {
						row := ""
						for x := range g.Cols {
							cell, _ := c.Cell(x, y)
							if cell == "" {
								cell = " "
							}
							row += cell
						}
						rows = append(rows, row)
					}
					at := fmt.Sprintf("%s, rim %v mm, %dx%d\n%s", f, rim, g.Cols, g.Rows, strings.Join(rows, "\n"))
					dots, mm, ok := barIn(rows, glyphs == schematic.ASCII, reading.RingWidthMM(tel))
					require.True(t, ok, at)
					wide := 2.0
					if glyphs == schematic.ASCII {
						wide = 1
					}
					require.InDelta(t, mm*sz.Face.R/rim*wide, dots, 0.5+1e-9, at)
					name, across := align.Outline(tel, f, rim)
					require.Contains(t, at, name)
					require.Contains(t, strings.Join(rows, "\n"), align.WidthText(across), at)
				}
			}
		}
	}
}

// The widths are those of the telescope: a mirror of 250 mm, and so on.
func TestOutlinesAreAsWideAsTheThing(t *testing.T) {
	tel := scopeNamed(t, "heron").Telescope()
	for _, c := range []struct {
		face    optics.Face
		rimMM   float64
		name, w string
	}{
		{optics.FacePrimary, 125, "mirror", "250 mm"},
		{optics.FacePrimary, 500, "mirror", "250 mm"},
		{optics.FacePrimary, 24, "circle", "48 mm"},
		{optics.FaceTarget, 13, "face", "26 mm"},
		{optics.FaceTarget, 6, "circle", "12 mm"},
		{optics.FaceMouth, 24, "drawtube", "32 mm"},
		{optics.FaceSecondary, 31.5, "secondary", "63 mm"},
		{optics.FaceCard, 142, "tube", "284 mm"},
	} {
		name, mm := align.Outline(tel, c.face, c.rimMM)
		assert.Equal(t, []string{c.name, c.w}, []string{name, align.WidthText(mm)}, "%s, rim %v mm", c.face, c.rimMM)
	}
}

// Seen in practice the secondary stands off the outgoing spot: the whole of its
// edge is drawn, where and as wide as it is.
func TestTheSecondaryIsSeenWhole(t *testing.T) {
	off := 0
	for seed := range uint64(6) {
		p := practising(t, seed, 80, 24, Options{}, env())
		p.plays(to(session.StageFirstLook, "p", false))
		s := p.align()
		tel := s.State().Tel
		view, ok := s.Work.Look(optics.FaceSecondary)
		require.True(t, ok)
		for _, size := range [][2]int{{60, 18}, {80, 24}, {120, 36}} {
			sz, _ := frame.SizesFor(size[0], size[1], false, false)
			spec := align.SightOf(tel, optics.FaceSecondary, view, sz)
			mirror := spec.Object.(schematic.SecondaryMirror)
			if mirror.Middle.Len() == 0 {
				continue
			}
			off++
			// A column and more within the dotted circle, where the drawing ends.
			assert.Less(t, (mirror.EdgeMM+mirror.Middle.Len())*sz.Face.R/spec.RimMM, sz.Face.R-1, "%v, seed %d", size, seed)
		}
	}
	require.Positive(t, off)
}

// Where the ring is too small to measure by, nobody is told to measure by it.
func TestExamplesGoByTheRingOnlyWhereItIsLargeEnough(t *testing.T) {
	tel := scopeNamed(t, "heron").Telescope()
	sz, _ := frame.SizesFor(80, 24, false, false)
	for _, rim := range align.Rims(tel, optics.FacePrimary) {
		first := align.ExamplesOn(tel, optics.FacePrimary, align.RulesByRing(tel, sz.Face.R, rim))[0].Typed
		if cols := tel.RingOuterMM * sz.Face.R / rim; cols < 2 {
			assert.Equal(t, "4 1/2", first, "the ring's radius is %v columns", cols)
		} else {
			assert.Equal(t, "4:30 2r", first, "the ring's radius is %v columns", cols)
		}
	}
	said, err := reading.Parse("4 1/2", reading.Context{Tel: tel, Face: optics.FacePrimary})
	require.NoError(t, err)
	assert.InDelta(t, tel.ApertureMM/4, said.At.Len(), 1e-9, "half of the way to the edge")
}

// What one would see and what one has typed are drawn to one scale: the rims
// stand for the same.
func TestYoursIsAsLargeAsWhatOneSees(t *testing.T) {
	sz, _ := frame.SizesFor(80, 24, false, false)
	far := 0
	for seed := range uint64(8) {
		d := &desk.Desk{Now: noon}
		w, err := d.Practice(scopeNamed(t, "heron"), event.World{Seed: seed, Level: "usual"})
		require.NoError(t, err)
		a, err := newApp(d, Options{Start: StartWork, Work: w}, env())
		require.NoError(t, err)
		p := &player{t, a}
		p.size(80, 24)
		p.plays(to(session.StageFirstLook, "p", false))
		s := p.align()
		view, ok := s.Work.Look(optics.FacePrimary)
		require.True(t, ok)
		sight := align.SightOf(s.State().Tel, optics.FacePrimary, view, sz)
		assert.Equal(t, sight.RimMM, s.FaceSpec(sz, "").RimMM)
		if sight.RimMM > 100 {
			far++
		}
	}
	assert.Positive(t, far, "some of them far off")
}
