package reading

import (
	"fmt"
	"math"
	"strings"
	"testing"
	"unicode"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"spotward/optics"
	"spotward/session/event"
	"spotward/session/words"
)

// fuzzContexts are places where a line may be typed.
func fuzzContexts() []Context {
	last := optics.Belief{At: optics.Tube{X: 3, Y: -4}, Cov: optics.Round(1)}
	goal := optics.Goal{InsideMM: 1}
	told := &event.Told{Moves: []event.ToldMove{{
		Turn: optics.Turn{Mirror: optics.Primary, Screw: "B", Turns: -0.25},
		Stop: &event.ToldStop{Right: 3, Up: 4, As: optics.StopBearing},
	}}}
	tilted := readingScope()
	tilted.FocuserDeg = 47
	flat := tilted
	flat.Target.Flat = true
	var cs []Context
	for _, f := range []optics.Face{optics.FacePrimary, optics.FaceSecondary, optics.FaceMouth, optics.FaceTarget, optics.FaceCard} {
		cs = append(cs,
			Context{Tel: readingScope(), Face: f, Mirror: optics.Primary, Goal: goal, Told: told, Last: &last},
			Context{Tel: tilted, Face: f, Mirror: optics.Secondary, Last: &last, Untouched: true},
			Context{Tel: flat, Face: f},
			Context{Tel: optics.Telescope{ApertureMM: 114, FocalLengthMM: 900}, Face: f},
		)
	}
	return cs
}

// whatever is typed: an error that keeps its form, or something that can be
// said back and, when it is a place, typed again to the same place.
func whatever(t interface {
	Errorf(string, ...any)
	FailNow()
}, typed string, c Context) {
	s, err := Parse(typed, c)
	if err != nil {
		checkError(t, err, c)
		return
	}
	require.NotEmpty(t, s.Echo(), typed)
	require.False(t, strings.ContainsFunc(s.Echo(), unicode.IsControl), typed)
	require.False(t, strings.ContainsFunc(s.Text, func(r rune) bool { return r != '\t' && !unicode.IsGraphic(r) }), typed)
	for _, turn := range s.Turned {
		require.LessOrEqual(t, math.Abs(turn.Turns), float64(event.MaxTurns), typed)
		require.NotZero(t, turn.Turns, typed)
	}
	require.Equal(t, s.Kind == SaidTurned, len(s.Turned) > 0, typed)
	if !s.HasPlace() {
		return
	}
	cov := s.Belief.Cov
	require.Greater(t, cov.XX*cov.YY-cov.XY*cov.XY, 0.0, typed)
	require.Less(t, cov.Sigma(), 1000.0, typed)
	require.Less(t, s.Belief.At.Len(), 1000.0, typed)
	seen := c
	seen.Face, seen.Untouched = s.Face, false // where it may stand is asked about elsewhere
	require.InDelta(t, 0, c.Tel.DialToTube(s.Face, s.At).Sub(s.Belief.At).Len(), 1e-6, typed)
	if s.Kind != SaidPlace {
		return
	}
	again, err := Parse(words.ReadingText(s.At), seen)
	require.NoError(t, err, "%s, printed as %s", typed, words.ReadingText(s.At))
	off := math.Hypot(again.At.Right-s.At.Right, again.At.Up-s.At.Up)
	require.LessOrEqual(t, off, 0.08+0.005*s.At.Len(), "%s, printed as %s", typed, words.ReadingText(s.At))
}

func FuzzParseReading(f *testing.F) {
	for _, s := range []string{
		"4 12", "430 12", "4h30 12", "4,5 12", "+8.5 -8.5", "r8.5 d8.5", "4 2r", "in 4", "home 2", "low right 8", "toward the tube 3",
		"4 1/2", "wall 12", "card 2 50", "can’t see", "=", "same", "B -1/4", "other way", "wrong C", "ease A ⅛ then B 1 1/4", "half 4", "1e308 4",
		"half past 4, 12 mm from the hole", "4 0.5”", "−8,5 +3", "\x1b[2J", "4 999999999999", "a quarter to 5 12", "lock B half a turn",
	} {
		f.Add(s, uint8(len(s)))
	}
	contexts := fuzzContexts()
	f.Fuzz(func(t *testing.T, typed string, context uint8) {
		whatever(t, typed, contexts[int(context)%len(contexts)])
	})
}

// Lines made of the words people use, in any order.
func TestAnyOrderOfKnownWords(t *testing.T) {
	words := strings.Fields("4 12 4:30 430 4.5 4½ 1/2 +8.5 -3 0 0.2 2 mm cm r rings ring widths edge half past quarter to at from the away toward tube focuser " +
		"up low right left top r l u d on in out dead home wall card gone many same = not done stuck free end other way wrong a B C lock screw ease tighten turn touch h o'clock laser centre middle \" , and then")
	contexts := fuzzContexts()
	rapid.Check(t, func(t *rapid.T) {
		line := strings.Join(rapid.SliceOfN(rapid.SampledFrom(words), 1, 6).Draw(t, "words"), " ")
		whatever(t, line, rapid.SampledFrom(contexts).Draw(t, "context"))
	})
}

// The same place however it is written.
func TestWritingsOfOnePlaceAgree(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := rapid.SampledFrom(fuzzContexts()).Draw(t, "context")
		half := rapid.IntRange(2, 25).Draw(t, "half hours")
		mm := float64(rapid.IntRange(1, int(math.Min(300, 9.9*c.farthestMM()))).Draw(t, "tenths")) / 10
		hour, minutes := half/2, 30*(half%2)
		want := optics.AtHour(float64(half)/2, mm)
		dot := fmt.Sprintf("%.1f", mm)
		for _, typed := range []string{
			fmt.Sprintf("%d:%02d %s", hour, minutes, dot),
			fmt.Sprintf("%d%02d %s", hour, minutes, strings.ReplaceAll(dot, ".", ",")),
			fmt.Sprintf("%dh%02d  %sMM", hour, minutes, dot),
			fmt.Sprintf("%.1f %s", float64(half)/2, dot),
			fmt.Sprintf("%s mm at %d:%02d", dot, hour, minutes),
			fmt.Sprintf("%+.5f %+.5f", want.Right, want.Up),
		} {
			s, err := Parse(typed, c)
			require.NoError(t, err, typed)
			assert.InDelta(t, want.Right, s.At.Right, 1e-4, typed)
			assert.InDelta(t, want.Up, s.At.Up, 1e-4, typed)
		}
	})
}

// What is said back of a place can be typed in, and is the place to what is
// shown of it: the half-hour and a tenth of a mm.
func TestEchoCanBeTypedBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := rapid.SampledFrom(fuzzContexts()).Draw(t, "context")
		far := math.Min(40, 0.7*c.farthestMM()) // beyond that it is asked about
		typed := fmt.Sprintf("%+.1f %+.1f", rapid.Float64Range(-far, far).Draw(t, "right"), rapid.Float64Range(-far, far).Draw(t, "up"))
		s, err := Parse(typed, c)
		require.NoError(t, err, typed)
		if s.At.Len() < 0.05 {
			return // said back as the middle
		}
		again, err := Parse(s.Echo(), c)
		require.NoError(t, err, s.Echo())
		off := math.Hypot(again.At.Right-s.At.Right, again.At.Up-s.At.Up)
		assert.LessOrEqual(t, off, 0.06+s.At.Len()*2*math.Sin(7.6*math.Pi/360), "%s echoed as %s", typed, s.Echo())
	})
}

// Spaces and capitals mean nothing.
func TestCaseAndSpacesMeanNothing(t *testing.T) {
	lines := []string{"4:30 12", "low right 8", "stuck b", "b -1/4", "half past 4 12", "toward the tube 3", "home 2", "+3 -4", "4 2r"}
	c := onFace(optics.FaceTarget)
	rapid.Check(t, func(t *rapid.T) {
		line := rapid.SampledFrom(lines).Draw(t, "line")
		want, err := Parse(line, c)
		require.NoError(t, err)
		spaced := strings.ReplaceAll(line, " ", strings.Repeat(" ", rapid.IntRange(1, 5).Draw(t, "spaces")))
		if rapid.Bool().Draw(t, "capitals") {
			spaced = strings.ToUpper(spaced)
		}
		got, err := Parse(" "+spaced+" ", c)
		require.NoError(t, err, spaced)
		got.Text = want.Text
		assert.Equal(t, want, got)
	})
}

// What a number costs does not grow with the number.
func TestCostDoesNotGrowWithNumbers(t *testing.T) {
	c := onFace(optics.FaceTarget)
	cost := func(typed string) float64 {
		return testing.AllocsPerRun(20, func() { _, _ = Parse(typed, c) })
	}
	// A digit more is a few more; a cost that grows with the number is fifty times as much.
	assert.LessOrEqual(t, cost("4 99999 rings"), 1.1*cost("4 2000 rings"))
	assert.LessOrEqual(t, cost("B 99999 1/99"), 1.1*cost("B 2000 1/99"))
	assert.Less(t, cost(strings.Repeat("9", 10_000)), 50.0)
}
