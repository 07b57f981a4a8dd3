package reading

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"spotward/optics"
	"spotward/session/event"
	"spotward/session/lex"
)

func toldOf(turns ...optics.Turn) *event.Told {
	var told event.Told
	for _, t := range turns {
		t.Mirror = optics.Primary
		told.Moves = append(told.Moves, event.ToldMove{Turn: t})
	}
	return &told
}

// asked holds that a line is asked back with these two ways to say it.
func asked(t *testing.T, typed string, c Context, examples ...string) {
	t.Helper()
	_, err := Parse(typed, c)
	var re *lex.Error
	require.ErrorAs(t, err, &re, typed)
	assert.Contains(t, re.Why, "?", typed)
	checkError(t, err, c)
	if len(examples) > 0 {
		assert.Equal(t, examples, re.Examples[:], typed)
	}
}

// Each screw has its own word for the way it went, before it or after it.
func TestEachScrewOwnsItsVerb(t *testing.T) {
	turn := func(screw string, turns float64) optics.Turn {
		return optics.Turn{Mirror: optics.Primary, Screw: screw, Turns: turns}
	}
	c := onFace(optics.FaceTarget)
	c.Told = toldOf(optics.Turn{Screw: "C", Turns: 0.25})
	for typed, want := range map[string][]optics.Turn{
		"tightened C 1/4, eased A 1/8":           {turn("C", 0.25), turn("A", -0.125)},
		"tighten C 1/4 ease A 1/8":               {turn("C", 0.25), turn("A", -0.125)},
		"tighten B 1/8 ease A 1/8":               {turn("B", 0.125), turn("A", -0.125)},
		"C 1/4, eased A 1/8":                     {turn("C", 0.25), turn("A", -0.125)},
		"C 1/4 and eased A 1/8":                  {turn("C", 0.25), turn("A", -0.125)},
		"eased A 1/8, eased B 1/8":               {turn("A", -0.125), turn("B", -0.125)},
		"C 1/8 loosened and B 1/8 tightened":     {turn("C", -0.125), turn("B", 0.125)},
		"C 1/8 loosened B 1/8 tightened":         {turn("C", -0.125), turn("B", 0.125)},
		"C eased 1/8, B tightened 1/8":           {turn("C", -0.125), turn("B", 0.125)},
		"ease A 1/8 tighten B 1/4 then ease C 1": {turn("A", -0.125), turn("B", 0.25), turn("C", -1)},
		"C 1/4 eased":                            {turn("C", -0.25)},
		"C -1/8 B 1/4":                           {turn("C", -0.125), turn("B", 0.25)},
	} {
		assert.Equal(t, want, must(t, typed, c).Turned, typed)
	}
	asked(t, "C 1/4 eased A 1/8", c, "C +1/4 A -1/8", "C -1/4 A +1/8")
	asked(t, "eased A 1/8, B 1/8", c, "A -1/8 B -1/8", "A -1/8 B +1/8")
}

// "a" is an article unless the line makes it a screw.
func TestTheArticleIsNoScrew(t *testing.T) {
	c := onFace(optics.FaceTarget)
	c.Told = toldOf(optics.Turn{Screw: "C", Turns: 0.25})
	asked(t, "a quarter", c, "C +1/4", "4:30 8")
	asked(t, "a half", c, "C +1/2", "4:30 8")
	asked(t, "a touch", c, "C +1/32", "4:30 8")
	asked(t, "half a touch", c, "C +1/64", "4:30 8")
	asked(t, "a turn", c, "C +1", "4:30 8")
	asked(t, "A quarter of a turn", c, "A +1/4", "C +1/4")
	asked(t, "a 1/4", c, "A +1/4", "C +1/4")
	asked(t, "a 1/4 turn", c, "C +1/4", "4:30 8")
	c.Told = toldOf(optics.Turn{Screw: "C", Turns: -0.25}, optics.Turn{Screw: "B", Turns: 0.25})
	asked(t, "a touch", c, "C -1/32", "B +1/32")
	c.Told = nil
	for _, typed := range []string{"a quarter", "a half", "A half", "a touch", "a turn", "A quarter"} {
		asked(t, typed, c)
	}
	c.Told = toldOf(optics.Turn{Screw: "C", Turns: 0.25})
	for typed, turns := range map[string]float64{
		"A 1/4": 0.25, "a -1/4": -0.25, "ease A a quarter": -0.25, "loosened a an eighth": -0.125, "a eased 1/4": -0.25, "screw a 1/4": 0.25,
	} {
		assert.Equal(t, []optics.Turn{{Mirror: optics.Primary, Screw: "A", Turns: turns}}, must(t, typed, c).Turned, typed)
	}
	assert.Len(t, must(t, "c a quarter a a touch", c).Turned, 2)
	assert.Equal(t, "A", must(t, "a stuck", c).Label)
	c.Told = toldOf(optics.Turn{Screw: "A", Turns: 0.25})
	assert.Equal(t, "A", must(t, "a quarter", c).Turned[0].Screw, "the same either way")
}

// The lock and the screw beside it have the same letter.
func TestABareLetterWhereALockIsTold(t *testing.T) {
	c := onFace(optics.FaceTarget)
	c.Told = toldOf(optics.Turn{Lock: "A", Turns: -0.25})
	assert.True(t, must(t, "A stuck", c).Lock, "it is what is in hand")
	asked(t, "A loose", c, "lock A loose", "screw A loose")
	asked(t, "A -1/2", c, "lock A -1/2", "screw A -1/2")
	asked(t, "eased A 1/2", c, "lock A -1/2", "screw A -1/2")
	asked(t, "B 1/8", c)
	said := must(t, "lock A stuck", c)
	assert.True(t, said.Lock)
	assert.False(t, must(t, "screw A stuck", c).Lock)
	assert.Equal(t, "A", must(t, "lock A -1/2", c).Turned[0].Lock)
	assert.Equal(t, "A", must(t, "screw A -1/2", c).Turned[0].Screw)

	c.Told = toldOf(optics.Turn{Lock: "A", Turns: -0.125}, optics.Turn{Screw: "B", Turns: 0.25})
	assert.Equal(t, "B", must(t, "B 1/8", c).Turned[0].Screw, "told as a screw")
	assert.Equal(t, "C", must(t, "C stuck", c).Label, "its lock is not in hand")
	c.Told = toldOf(optics.Turn{Lock: "A", Turns: -0.125}, optics.Turn{Screw: "A", Turns: 0.25})
	asked(t, "A stuck", c, "lock A stuck", "screw A stuck")
	asked(t, "A 1/8", c)
}

// The spot that goes down the hole is gone from the face too.
func TestGoneBesideTheHole(t *testing.T) {
	c := onFace(optics.FaceTarget)
	assert.Equal(t, SaidGone, must(t, "gone", c).Kind)
	c.Told = toldOf(optics.Turn{Screw: "C", Turns: 0.25})
	c.Told.Moves[0].Stop = &event.ToldStop{Right: 2}
	asked(t, "gone", c, "home", "not on the face")
	assert.Equal(t, SaidGone, must(t, "not on the face", c).Kind)
	assert.Equal(t, SaidHome, must(t, "home", c).Kind)
	c.Told.Moves[0].Stop.Right = 9
	assert.Equal(t, SaidGone, must(t, "gone", c).Kind)
	c.Told, c.Last = nil, &optics.Belief{Cov: optics.Round(1)}
	asked(t, "gone", c, "home", "not on the face")
	c.Aside = true
	assert.Equal(t, SaidGone, must(t, "gone", c).Kind)
	c.Aside, c.Face = false, optics.FacePrimary
	assert.Equal(t, SaidGone, must(t, "gone", c).Kind)
}

// A number beside "out" is a clock position or a distance.
func TestADistanceIsNoClock(t *testing.T) {
	for _, f := range []optics.Face{optics.FacePrimary, optics.FaceTarget} {
		for _, typed := range []string{"12 out", "2 out", "12 off", "5 off", "2 in", "1 in", "off 12", "4.5 out"} {
			asked(t, typed, onFace(f))
		}
		for _, typed := range []string{"out at 2", "2 o'clock out", "at 2 out", "4:30 out", "2 o'clock in", "in at 1", "in 1", "out 4", "half past 4 out"} {
			must(t, typed, onFace(f))
		}
	}
	must(t, "off at 5", onFace(optics.FacePrimary))
}

// "right" may say how exactly.
func TestRightInTheHole(t *testing.T) {
	c := onFace(optics.FaceTarget)
	for _, typed := range []string{"right in the hole", "right in", "right inside"} {
		assert.Equal(t, SaidInside, must(t, typed, c).Kind, typed)
	}
	assert.InDelta(t, 4.5, must(t, "bottom right in the hole", c).At.Hour(), 1e-9)
	assert.InDelta(t, 3, must(t, "in right", c).At.Hour(), 1e-9)
}

func TestALetterAndAWholeNumber(t *testing.T) {
	c := onFace(optics.FaceTarget)
	c.Told = toldOf(optics.Turn{Screw: "C", Turns: 0.25})
	asked(t, "c 3", c, "C +3", "3:00 8")
	assert.InDelta(t, 3, must(t, "c 3 turns", c).Turned[0].Turns, 0)
	assert.InDelta(t, -1, must(t, "ease c 1", c).Turned[0].Turns, 0)
	asked(t, "wrong C", c, "wrong A", "wrong B")
	assert.Equal(t, SaidWrong, must(t, "wrong A", c).Kind)
}

func TestTheEchoSaysTheClockThatWasTyped(t *testing.T) {
	for typed, echo := range map[string]string{
		"4:15 12": "a quarter past 4, 12 mm from the hole", "4.75 12": "a quarter to 5, 12 mm from the hole", "12:10 12": "12:10, 12 mm from the hole", "4:41 12": "4:40, 12 mm from the hole",
		"12 12": "12 o'clock, 12 mm from the hole", "5:40 9": "5:40, 9 mm from the hole", "11:59 9": "12 o'clock, 9 mm from the hole", "0:15 9": "a quarter past 12, 9 mm from the hole",
	} {
		assert.Equal(t, echo, must(t, typed, onFace(optics.FaceTarget)).Echo(), typed)
	}
}
