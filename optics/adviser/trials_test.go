package adviser

import (
	"flag"
	"fmt"
	"maps"
	"math"
	"os"
	"slices"
	"testing"
	"text/tabwriter"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"spotward/optics"
)

// trials are the rows of the table. Each stands beside the oracle of the same
// hands, who knows the true response and is advised by the same code.
var trials = []trial{
	{name: "oracle", oracle: true},
	{name: "geometry known"},
	{name: "labels as asked", truth: asAsked, file: notMeasured},
	{name: "positions unknown, 9 in 10 clockwise", truth: nineInTen, file: positionsUnknown},
	{name: "nothing known", file: nothingKnown},
	{name: "labels reversed", file: reversedLabels},
	{name: "first screw 90° out", file: quarterOut},
	{name: "second session, nothing in the file", file: nothingKnown, again: true},
	{name: "one reading in ten mistyped", hands: mistyping(trained)},
	{name: "locks that pull", locks: true},
	{name: "whole moves, geometry known", whole: true},
	{name: "geometry known, no card over the open end", noCard: true},
	{name: "oracle, watching", oracle: true, watching: true},
	{name: "geometry known, watching", watching: true},
	{name: "nothing known, watching", file: nothingKnown, watching: true},
	{name: "nothing known, watching, asked which way", file: nothingKnown, watching: true, ways: true},
	{name: "oracle, beginner", oracle: true, hands: beginner},
	{name: "beginners, geometry known", hands: beginner},
	{name: "oracle, four screws", oracle: true, screws: 4},
	{name: "four screws, geometry known", screws: 4},
	{name: "trial and error, watching", by: byWatching},
	{name: "trial and error, numbers called out", by: byNumbers},
	{name: "loose goals: oracle", oracle: true, loose: true},
	{name: "loose goals: geometry known", loose: true},
	{name: "loose goals: nothing known", file: nothingKnown, loose: true},
}

func mistyping(h hands) hands { h.mistyped = 0.1; return h }

func cells(t *optics.Telescope, f func(*optics.Cell)) { f(&t.Secondary); f(&t.Primary) }

func asAsked(w *world) {
	cells(&w.scope, func(c *optics.Cell) {
		c.FirstDeg = (2*w.rng.Float64() - 1) * 180 / float64(c.Screws)
		c.LabelsClockwise = true
	})
}

func notMeasured(t *optics.Telescope) {
	cells(t, func(c *optics.Cell) { c.FirstDeg, c.PlacesKnown = 0, optics.Guessed })
}

func nineInTen(w *world) {
	cells(&w.scope, func(c *optics.Cell) { c.LabelsClockwise = w.rng.Float64() < 0.9 })
}

func positionsUnknown(t *optics.Telescope) {
	cells(t, func(c *optics.Cell) { c.FirstDeg, c.LabelsClockwise, c.PlacesKnown = 0, true, optics.Unknown })
}

func nothingKnown(t *optics.Telescope) {
	cells(t, func(c *optics.Cell) {
		c.FirstDeg, c.LabelsClockwise, c.ClockwisePulls = 0, true, false
		c.PlacesKnown, c.SenseKnown, c.GainKnown = optics.Unknown, optics.Unknown, optics.Unknown
		c.LeadMM, c.CircleMM = 0, 0
	})
}

func reversedLabels(t *optics.Telescope) {
	cells(t, func(c *optics.Cell) { c.LabelsClockwise = !c.LabelsClockwise })
}

func quarterOut(t *optics.Telescope) { cells(t, func(c *optics.Cell) { c.FirstDeg += 90 }) }

// BenchmarkTrials prints what the adviser is worth, over 3,000 scopes a row, a
// tenth of them with -short.
func BenchmarkTrials(b *testing.B) {
	n := 3000
	if testing.Short() {
		n = 300
	}
	for b.Loop() {
		out := tabwriter.NewWriter(os.Stdout, 0, 0, 2, ' ', 0)
		fmt.Fprintln(out, "\nwho\tmet %\tbound %\tmoves\tp50\tp95\tlooks\tp95\tfalse %\tstarts\te/a p50\tp95")
		for _, c := range trials {
			r := c.many(n)
			fmt.Fprintf(out, "%s\t%.1f\t%.1f\t%.2f\t%d\t%d\t%.1f\t%d\t%.1f\t%.1f\t%.2f\t%.2f\n", c.name,
				r.met, r.bounded, r.mean, r.p50, r.p95, r.looks, r.looks95, r.wrong, r.starts, r.e50, r.e95)
		}
		out.Flush()
	}
}

// BenchmarkReached holds what the adviser has reached, over 80 scopes a row:
// means to about three standard errors.
func BenchmarkReached(b *testing.B) {
	for b.Loop() {
		held(b, 80, slices.Collect(maps.Keys(reached))...)
	}
}

var long = flag.Bool("long", false, "play as many as .ci/long does")

// usually returns how many of something are played: usually, and with -long.
func usually(n, many int) int {
	if *long {
		return many
	}
	return n
}

// TestTrials holds the same bounds on a few scopes, always the same ones.
func TestTrials(t *testing.T) {
	if testing.Short() {
		t.Skip("of fewer scopes nothing can be told")
	}
	held(t, usually(8, 16), "oracle", "geometry known", "nothing known", "labels reversed")
}

// held runs trials on the first scopes and holds each to its bounds. Oracles
// must be among the names.
func held(t testing.TB, scopes int, names ...string) {
	t.Helper()
	rows := map[string]row{}
	for _, c := range trials {
		if slices.Contains(names, c.name) {
			rows[c.name] = c.many(scopes)
		}
	}
	require.Len(t, rows, len(names))
	for name, got := range rows {
		want := reached[name]
		require.Contains(t, rows, want.over)
		assert.GreaterOrEqual(t, got.met, want.met, name+": truly met")
		assert.LessOrEqual(t, got.mean-rows[want.over].mean, want.more, name+": moves over the oracle")
		assert.LessOrEqual(t, got.wrong, want.wrong, name+": false moves")
	}
}

// reached is what is held: scopes truly met (%), moves over the oracle of the
// same hands, false moves (%).
var reached = map[string]struct {
	over             string
	met, more, wrong float64
}{
	"oracle":                      {"oracle", 98, 0, 4},
	"geometry known":              {"oracle", 98, 1.6, 5},
	"nothing known":               {"oracle", 98, 6, 22},
	"labels reversed":             {"oracle", 97, 5.2, 22},
	"one reading in ten mistyped": {"oracle", 96, 1.8, 10},
	"oracle, watching":            {"oracle, watching", 98, 0, 4},
	"geometry known, watching":    {"oracle, watching", 98, 1, 5},
}

// The population is what it is said to be.
func TestWorldIsThePopulation(t *testing.T) {
	for n := range uint64(50) {
		w := newWorld(n, 3, trained)
		s := w.truth()
		assert.InDelta(t, 36, s.P.Len(), 24.5)
		before := w.spot(optics.Primary)
		w.drive(optics.Primary, 1, 0.25)
		w.drive(optics.Primary, 1, -0.25-trained.lost)
		assert.InDelta(t, 0, w.spot(optics.Primary).Sub(before).Len(), 1e-6, "a reversal loses travel")
		assert.Less(t, math.Abs(w.truth().E.Len()-s.E.Len()), 1e-6)
	}
}
