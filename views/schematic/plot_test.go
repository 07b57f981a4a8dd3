package schematic

import (
	"fmt"
	"math"
	"math/bits"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"spotward/views/theme"
)

// plotted draws a plot in a canvas with a border of two cells round it.
func plotted(o Options, w, h int, s PlotSpec) *Canvas {
	c := New(w+4, h+4, o)
	c.Plot(Rect{2, 2, w, h}, s)
	return c
}

// heightsOf returns the middle row of dots of each mark, from left to right.
// Marks must stand apart.
func heightsOf(c *Canvas) []float64 {
	var out []float64
	sum, n := 0., 0.
	for i := range c.cols*c.set.wide + 1 {
		before := n
		for j := range c.rows * c.set.high {
			if l, bit := c.bit(dot{i, j}); l != nil && l.dots[onSpot]&bit != 0 {
				sum, n = sum+float64(j), n+1
			}
		}
		if n == before && n > 0 {
			out = append(out, sum/n)
			sum, n = 0, 0
		}
	}
	return out
}

// What is larger stands higher, ten times as much as far from 1 as 1 from a
// tenth, and green is what does not pass the line of what is allowed.
func TestPlotStandsByItsValues(t *testing.T) {
	values := []float64{10, 1, 1, 0.1}
	spec := PlotSpec{From: 0, To: 3, AllowedMM: 0.5, AllowedWord: "allowed"}
	var line PlotLine
	for i, v := range values {
		line.Points = append(line.Points, PlotPoint{X: float64(i), MM: v})
	}
	spec.Lines = []PlotLine{line}
	c := plotted(Options{}, 60, 20, spec)
	heights := heightsOf(c)
	require.Len(t, heights, 4)
	assert.Equal(t, heights[1], heights[2])
	assert.InDelta(t, heights[1]-heights[0], heights[3]-heights[2], 1.01)
	assert.Greater(t, heights[1], heights[0])
	roles := map[theme.Role]int{}
	for row := range c.rows {
		for col := range c.cols {
			if l := c.at(col, row); l.any(onSpot) {
				roles[l.ink[onSpot]] += bits.OnesCount8(l.dots[onSpot])
			}
		}
	}
	assert.Positive(t, roles[theme.Good])
	assert.Equal(t, 3*roles[theme.Good], roles[theme.Ink], "of four marks one is within 0.5")
	assert.Len(t, roles, 2)
	text := c.String(theme.Palette{})
	assert.Contains(t, text, "allowed")
	assert.Contains(t, text, "10 mm")
	assert.Equal(t, 1, strings.Count(text, "mm"), "the unit is said once")
}

// At whatever size and with whatever values, nothing stands outside its block,
// and no figure of the axis is out of its order.
func TestPlotKeepsToItsBlock(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		o := Options{Glyphs: Glyphs(rapid.IntRange(0, 2).Draw(t, "glyphs"))}
		w, h := rapid.IntRange(-2, 90).Draw(t, "w"), rapid.IntRange(-2, 30).Draw(t, "h")
		value := rapid.OneOf(rapid.Float64Range(0, 200), rapid.SampledFrom([]float64{math.NaN(), math.Inf(1), -1, 0, 1e300}))
		spec := PlotSpec{
			From: rapid.Float64Range(-5, 5).Draw(t, "from"), To: rapid.Float64Range(-5, 50).Draw(t, "to"),
			AllowedMM: value.Draw(t, "allowed"), AllowedWord: "allowed", FromWord: "look 1", ToWord: "look 9", EarlyWord: "not known yet",
		}
		for range rapid.IntRange(0, 3).Draw(t, "lines") {
			line := PlotLine{Word: "0.5 mm", Dotted: rapid.Bool().Draw(t, "dotted")}
			for range rapid.IntRange(0, 6).Draw(t, "points") {
				line.Points = append(line.Points, PlotPoint{X: value.Draw(t, "x"), MM: value.Draw(t, "mm"), Hollow: rapid.Bool().Draw(t, "hollow"), Beyond: rapid.Bool().Draw(t, "beyond")})
			}
			spec.Lines = append(spec.Lines, line)
		}
		c := plotted(o, w, h, spec)
		for row := range c.rows {
			for col := range c.cols {
				if text, _ := c.Cell(col, row); text != "" && (col < 2 || row < 2 || col >= 2+w || row >= 2+h) {
					t.Fatalf("%q at %d, %d of %d x %d", text, col, row, w, h)
				}
			}
		}
	})
}

func TestPlotInLetters(t *testing.T) {
	spec := PlotSpec{From: 0, To: 2, AllowedMM: 1, Lines: []PlotLine{{Points: []PlotPoint{{X: 0, MM: 5, Hollow: true}, {X: 1, MM: 0.5}, {X: 2, Beyond: true}}}}}
	text := plotted(Options{Glyphs: ASCII}, 40, 12, spec).String(theme.Palette{})
	for _, mark := range []string{"o", "*", "^"} {
		assert.Equal(t, 1, strings.Count(text, mark), "%s\n%s", mark, text)
	}
	for _, r := range text {
		require.Less(t, r, rune(128))
	}
	assert.Less(t, strings.Index(text, "^"), strings.Index(text, "o"), "beyond all that was seen")
}

// The words of the ends and of the last point stand in the plot's own place.
func TestPlotWords(t *testing.T) {
	spec := PlotSpec{From: 1, To: 30, AllowedMM: 1, AllowedWord: "allowed", FromWord: "look 1", ToWord: "look 30", EarlyWord: "nothing known yet",
		Lines: []PlotLine{{Word: "0.7 mm", Points: []PlotPoint{{X: 25, MM: 8}, {X: 30, MM: 0.7}}}}}
	text := plotted(Options{}, 78, 12, spec).String(theme.Palette{})
	for _, want := range []string{"look 1", "look 30", "0.7 mm", "allowed", "nothing known yet"} {
		assert.Contains(t, text, want)
	}
	spec.Lines[0].Points[0].X = 5
	assert.NotContains(t, plotted(Options{}, 78, 12, spec).String(theme.Palette{}), "nothing known yet", "no room, and no need")
}

func TestSparkDoubles(t *testing.T) {
	for v, dots := range map[float64]int{0: 1, 0.4: 1, 1: 1, 1.01: 2, 2: 2, 2.1: 3, 4: 3, 4.1: 4, 500: 4} {
		assert.Equal(t, dots, sparkDots(v), fmt.Sprint(v))
	}
	c := New(6, 1, Options{})
	c.Spark(0, 0, []float64{0.5, 1.5, 3, 9, -1})
	assert.Equal(t, "⣀⣤⣶⣿⡀", strings.TrimRight(c.String(theme.Palette{}), " "))
	c = New(6, 1, Options{Glyphs: ASCII})
	c.Spark(0, 0, []float64{0.5, 1.5, 3, 90, -1})
	assert.Equal(t, "1239-", strings.TrimRight(c.String(theme.Palette{}), " "))
}
