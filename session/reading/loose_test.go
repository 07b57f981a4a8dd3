package reading

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"spotward/optics"
	"spotward/session/event"
	"spotward/session/lex"
)

// What people say of themselves, in no fixed order and with words that say
// nothing; each is the same as what stands behind it.
func TestLooseTalkIsTheSameAsThePlainForm(t *testing.T) {
	told := toldOf(optics.Turn{Screw: "C", Turns: 0.25})
	told.Moves[0].Stop = &event.ToldStop{Right: 8, Up: 3, As: optics.StopPoint}
	for _, tt := range []struct {
		face         optics.Face
		typed, plain string
	}{
		{optics.FacePrimary, "it's about 12mm off at 4:30", "4:30 12"},
		{optics.FacePrimary, "12mm from center at 4", "4 12"},
		{optics.FacePrimary, "I'd say half past four, twelve millimetres", "4:30 12 mm"},
		{optics.FacePrimary, "4;30 12", "4:30 12"},
		{optics.FacePrimary, "4-ish, 12", "4 12"},
		{optics.FacePrimary, "~12 mm @ 430", "4:30 12 mm"},
		{optics.FacePrimary, "thirty at six", "6 30"},
		{optics.FacePrimary, "20 5", "5 20"},
		{optics.FacePrimary, "a ring and a half at 4", "4 1.5r"},
		{optics.FacePrimary, "half a ring low right", "low right 0.5r"},
		{optics.FacePrimary, "halfway to the edge at 3", "3 1/2"},
		{optics.FacePrimary, "3/4 of an inch at 9", `9 0.75"`},
		{optics.FacePrimary, "on the edge of the ring at 7", "on 7"},
		{optics.FacePrimary, "7 oclock, just touching the ring", "on 7"},
		{optics.FacePrimary, "bottom right just outside the ring", "out at low right"},
		{optics.FacePrimary, "still in the ring now", "in"},
		{optics.FacePrimary, "spot on", "dead"},
		{optics.FacePrimary, "off the mirror toward 4", "wall 4"},
		{optics.FacePrimary, "edge of the mirror at 2", "2 edge"},
		{optics.FaceTarget, "down the hole, brighter toward 4", "home 4"},
		{optics.FaceTarget, "home, rays even", "home"},
		{optics.FaceTarget, "it has gone down the hole", "home"},
		{optics.FaceTarget, "not on the face", "not there"},
		{optics.FaceTarget, "half in at 4", "on 4"},
		{optics.FaceTarget, "second ring, 3 o'clock", "3 2r"},
		{optics.FaceTarget, "10 to 12 mm at 4", "4 11 mm"},
		{optics.FaceTarget, "no sign of it", "cant see"},
		{optics.FaceTarget, "at the cue", "="},
		{optics.FaceTarget, "only turned it 1/8", "C +1/8"},
		{optics.FaceTarget, "i turned C a quarter", "C +1/4"},
		{optics.FaceTarget, "C 45 degrees", "C +1/8"},
		{optics.FaceTarget, "C 1/8 back", "C -1/8"},
		{optics.FaceTarget, "oops, turned it anticlockwise", "other way C"},
		{optics.FaceTarget, "B not C", "wrong B"},
		{optics.FaceTarget, "C won't turn", "stuck C"},
		{optics.FaceTarget, "it spins freely", "free C"},
		{optics.FaceTarget, "the key slipped on C", "slipped C"},
		{optics.FaceTarget, "haven't turned it yet", "not done C"},
		{optics.FacePrimary, "about 4 1/2", "4 1/2"},
		{optics.FaceTarget, "2r/2", ""}, {optics.FaceTarget, "hokum 4", ""},
		{optics.FacePrimary, "430*12", "4:30 12 mm"}, {optics.FacePrimary, "4.5*12", "4:30 12 mm"}, {optics.FacePrimary, "430/2", "4:30 2r"},
		{optics.FaceTarget, "+", "="}, {optics.FaceTarget, ".", "dead"}, {optics.FaceTarget, "*", "in"}, {optics.FacePrimary, "0", "not there"},
		{optics.FaceTarget, "*7", "home 7"}, {optics.FaceTarget, "*1130", "home 11:30"}, {optics.FacePrimary, "*4", "in 4"},
		{optics.FaceTarget, "12/3", "12 3r"},
	} {
		c := onFace(tt.face)
		c.Told = told
		got, err := Parse(tt.typed, c)
		if tt.plain == "" {
			require.Error(t, err, tt.typed)
			checkError(t, err, c)
			continue
		}
		require.NoError(t, err, tt.typed)
		want := must(t, tt.plain, c)
		assert.Equal(t, want.Kind, got.Kind, tt.typed)
		assert.Equal(t, want.Turned, got.Turned, tt.typed)
		assert.Equal(t, [3]any{want.Is, want.Label, want.Lock}, [3]any{got.Is, got.Label, got.Lock}, tt.typed)
		assert.InDelta(t, want.At.Right, got.At.Right, 1e-6, tt.typed)
		assert.InDelta(t, want.At.Up, got.At.Up, 1e-6, tt.typed)
	}
}

// What crude rules would take for something.
func TestWhatMayBeMeantTwoWaysIsAsked(t *testing.T) {
	c := onFace(optics.FaceTarget)
	c.Told = toldOf(optics.Turn{Screw: "C", Turns: 0.25})
	for _, typed := range []string{
		"went the wrong way", "went down", "only half", "half in", "a bit right", "up a bit", "moved 2 mm right", "moved left 3", "1/4", "3/8", "4 12 or 5 12", "another 1/8",
		"an eighth too far", "overshot", "turned A and B", "loosened B by mistake", "really stiff", "no", "even", "smeared out 3 to 5 oclock", "home?",
		"done", "ok", "better", "5 mm from the edge at 4", "4-12 or so", "SE 5", "16:30 12", "C stuck?", "came out",
	} {
		asked(t, typed, c)
	}
	for _, f := range []optics.Face{optics.FaceCard, optics.FaceMouth} {
		asked(t, "not on the face", onFace(f))
	}
	c.Told.Moves[0].Stop = &event.ToldStop{Right: 2, As: optics.StopPoint}
	asked(t, "0", c, "*", "00")
	asked(t, "vanished", c, "home", "not on the face")
}

// A "not" in front of what the spot or a screw does is never taken for it, nor is
// a "nearly".
func TestANegationIsNeverPassedOver(t *testing.T) {
	told := toldOf(optics.Turn{Screw: "C", Turns: 0.25})
	said := []string{
		"home", "in", "dead", "on 4", "out at 4", "4 12", "12 mm at 4", "down the hole", "in the ring", "in the hole at 4", "dead centre", "spot on", "at the cue", "same",
		"C stuck", "stuck", "free", "at the end", "C 1/4", "other way", "wall 4", "edge 4", "gone down the hole", "home brighter at 2", "touching the ring at 7",
	}
	rapid.Check(t, func(t *rapid.T) {
		line := rapid.SampledFrom(said).Draw(t, "said")
		before := rapid.SampledFrom([]string{"not", "not quite", "nearly", "its not", "almost", "never"}).Draw(t, "before")
		c := onFace(rapid.SampledFrom([]optics.Face{optics.FacePrimary, optics.FaceTarget}).Draw(t, "face"))
		c.Told = told
		plain, err := Parse(line, c)
		if err != nil {
			return
		}
		got, err := Parse(before+" "+line, c)
		if err != nil {
			return
		}
		assert.NotEqual(t, plain.Kind, got.Kind, "%s %s: %s", before, line, got.Echo())
	})
}

// Words that say nothing change nothing, wherever they stand.
func TestFillersChangeNothing(t *testing.T) {
	lines := []string{"4:30 12 mm", "in", "on 7", "home", "not there", "C stuck", "low right 20 mm"}
	quiet := []string{"about", "now", "i think", "it's", "maybe", "please", "the"}
	rapid.Check(t, func(t *rapid.T) {
		c := onFace(optics.FaceTarget)
		line := rapid.SampledFrom(lines).Draw(t, "line")
		want, err := Parse(line, c)
		require.NoError(t, err)
		ws := strings.Fields(line)
		at := rapid.SampledFrom([]int{0, len(ws)}).Draw(t, "at")
		filled := append(append(append([]string{}, ws[:at]...), rapid.SampledFrom(quiet).Draw(t, "filler")), ws[at:]...)
		got, err := Parse(strings.Join(filled, " "), c)
		require.NoError(t, err, filled)
		assert.Equal(t, want.Kind, got.Kind, filled)
		assert.Equal(t, want.At, got.At, filled)
		assert.Equal(t, want.Label, got.Label, filled)
	})
}

// A refusal names the word that is not known, and shows the line without it.
func TestAnUnknownWordIsNamed(t *testing.T) {
	c := onFace(optics.FaceTarget)
	for typed, says := range map[string]string{
		"4:30 8 gizmo":      `"gizmo": how many mm is that? say 4:30 8, in 4:30,`,
		"gizmo home":        `"gizmo": I don't know that word. Where is the spot? say home, `,
		"12mm frum it at 4": `"frum": I don't know that word. Where is the spot? say 4:00 12,`,
	} {
		_, err := Parse(typed, c)
		require.ErrorContains(t, err, says, typed)
		checkError(t, err, c)
	}
	_, err := Parse("gizmo", c)
	assert.EqualError(t, err, `"gizmo": I don't know that word. Where is the spot? say 4:30 8, home, not there, cannot see, in 4 or on 4`)
	_, err = Parse("gizmo", onFace(optics.FacePrimary))
	assert.EqualError(t, err, `"gizmo": I don't know that word. Where is the spot? say 4:30 2r, in 4, dead, cant see, on 4, out 4, wall 4 or not there`)
	c.Told = toldOf(optics.Turn{Screw: "C", Turns: 0.25})
	_, err = Parse("C gizmo", c)
	assert.EqualError(t, err, `"gizmo": I don't know that word. What was done with the screw? say C +1/8, C -1/8, other way, stuck C, wrong A, free C, end C, slipped C or not done`)
}

// What keeps people from going on is answered with what to do.
func TestTroublesAreAnswered(t *testing.T) {
	c := onFace(optics.FaceTarget)
	for typed, says := range map[string]string{
		"no card": "leave the laser off", "lost the hex key": "do not tilt the tube", "cant reach it": "can somebody else turn it?", "no locks": "skip no locks",
		"the screw fell out": "laser off", "too heavy": "two people", "cap missing": "before the cap goes on", "no room to swing": "skip no room", "which screw?": "say where, why or help",
		"i am lost": "say where, why or help", "need a break": "say quit", "knocked the scope": "look again", "scrap that": "undo",
	} {
		_, err := Parse(typed, c)
		require.ErrorContains(t, err, says, typed)
		var e *lex.Error
		require.ErrorAs(t, err, &e)
		assert.True(t, e.Tells(), typed)
		assert.Empty(t, e.Examples, typed)
	}
}
