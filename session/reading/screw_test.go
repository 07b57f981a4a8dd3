package reading

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"spotward/optics"
	"spotward/session/event"
)

func TestWhatAScrewSays(t *testing.T) {
	told := func(screws ...string) *event.Told {
		var t event.Told
		for _, s := range screws {
			t.Moves = append(t.Moves, event.ToldMove{Turn: optics.Turn{Mirror: optics.Primary, Screw: s, Turns: 0.25}})
		}
		return &t
	}
	lock := &event.Told{Moves: []event.ToldMove{{Turn: optics.Turn{Mirror: optics.Primary, Lock: "C", Turns: 0.125}}}}
	tests := []struct {
		typed string
		told  *event.Told
		kind  SaidKind
		is    event.Says
		label string
		lock  bool
		echo  string
	}{
		{"stuck B", nil, SaidScrew, event.SaysStuck, "B", false, "B is stuck"},
		{"B is stuck", nil, SaidScrew, event.SaysStuck, "B", false, "B is stuck"},
		{"STUCK b", nil, SaidScrew, event.SaysStuck, "B", false, "B is stuck"},
		{"screw a stuck", nil, SaidScrew, event.SaysStuck, "A", false, "A is stuck"},
		{"stuck lock B", nil, SaidScrew, event.SaysStuck, "B", true, "lock B is stuck"},
		{"free B", nil, SaidScrew, event.SaysFree, "B", false, "B turns free"},
		{"end B", nil, SaidScrew, event.SaysEnd, "B", false, "B is at its end"},
		{"B at its end", nil, SaidScrew, event.SaysEnd, "B", false, "B is at its end"},
		{"slipped B", nil, SaidScrew, event.SaysSlipped, "B", false, "B slipped"},
		{"sticky B", nil, SaidScrew, event.SaysSticky, "B", false, "B is sticky"},
		{"stripped B", nil, SaidScrew, event.SaysStripped, "B", false, "B is stripped"},
		{"other way", told("B"), SaidScrew, event.SaysOtherWay, "B", false, "B was turned the other way"},
		{"other way", told("A", "B"), SaidScrew, event.SaysOtherWay, "", false, "what was told was turned the other way"},
		{"other way A", told("A", "B"), SaidScrew, event.SaysOtherWay, "A", false, "A was turned the other way"},
		{"not done", told("B"), SaidScrew, event.SaysNotDone, "B", false, "B was not turned"},
		{"not done", told("A", "B"), SaidScrew, event.SaysNotDone, "", false, "what was told was not turned"},
		{"wrong C", told("B"), SaidWrong, "", "C", false, "C was turned in place of the one told"},
		{"wrong screw C", told("B"), SaidWrong, "", "C", false, "C was turned in place of the one told"},
		{"stuck", told("B"), SaidScrew, event.SaysStuck, "B", false, "B is stuck"},
		{"stuck C", lock, SaidScrew, event.SaysStuck, "C", true, "lock C is stuck"},
		{"stuck", lock, SaidScrew, event.SaysStuck, "C", true, "lock C is stuck"},
	}
	for _, tt := range tests {
		c := onFace(optics.FaceTarget)
		c.Told = tt.told
		s := must(t, tt.typed, c)
		assert.Equal(t, tt.kind, s.Kind, tt.typed)
		assert.Equal(t, tt.is, s.Is, tt.typed)
		assert.Equal(t, tt.label, s.Label, tt.typed)
		assert.Equal(t, tt.lock, s.Lock, tt.typed)
		assert.Equal(t, tt.echo, s.Echo(), tt.typed)
		assert.False(t, s.HasPlace())
	}
}

func TestWhatWasTurned(t *testing.T) {
	type turns = []optics.Turn
	b := func(v float64) turns { return turns{{Mirror: optics.Primary, Screw: "B", Turns: v}} }
	tests := []struct {
		typed string
		want  turns
		echo  string
	}{
		{"B -1/4", b(-0.25), "turned: B 1/4, ease (anticlockwise)"},
		{"b−1/4", b(-0.25), "turned: B 1/4, ease (anticlockwise)"},
		{"B +1/8", b(0.125), "turned: B 1/8, tighten (clockwise)"},
		{"B 1/8", b(0.125), "turned: B 1/8, tighten (clockwise)"},
		{"B⅛", b(0.125), "turned: B 1/8, tighten (clockwise)"},
		{"B 1 1/4", b(1.25), "turned: B 1 1/4, tighten (clockwise)"},
		{"B -1 1/4", b(-1.25), "turned: B 1 1/4, ease (anticlockwise)"},
		{"B -1½", b(-1.5), "turned: B 1 1/2, ease (anticlockwise)"},
		{"B 0.2", b(0.2), "turned: B 0.2, tighten (clockwise)"},
		{"B -,2", nil, ""},
		{"B -0,2", b(-0.2), "turned: B 0.2, ease (anticlockwise)"},
		{"B 3/16", b(0.1875), "turned: B 3/16, tighten (clockwise)"},
		{"B 1 turn", b(1), "turned: B 1, tighten (clockwise)"},
		{"B half a turn", b(0.5), "turned: B 1/2, tighten (clockwise)"},
		{"B a quarter", b(0.25), "turned: B 1/4, tighten (clockwise)"},
		{"B three eighths", b(0.375), "turned: B 3/8, tighten (clockwise)"},
		{"ease B an eighth", b(-0.125), "turned: B 1/8, ease (anticlockwise)"},
		{"eased B a touch", b(-1. / 32), "turned: B 1/32, ease (anticlockwise)"},
		{"tighten B 1/8", b(0.125), "turned: B 1/8, tighten (clockwise)"},
		{"B 1/8 anticlockwise", b(-0.125), "turned: B 1/8, ease (anticlockwise)"},
		{"B ease 1/8", b(-0.125), "turned: B 1/8, ease (anticlockwise)"},
		{"lock B 1/8", turns{{Mirror: optics.Primary, Lock: "B", Turns: 0.125}}, "turned: lock B 1/8, tighten (clockwise)"},
		{
			"ease A 1/8, then take up B 1/8",
			turns{{Mirror: optics.Primary, Screw: "A", Turns: -0.125}, {Mirror: optics.Primary, Screw: "B", Turns: 0.125}},
			"turned: A 1/8, ease (anticlockwise), then B 1/8, tighten (clockwise)",
		},
		{"B 0", nil, ""}, {"B 21", nil, ""}, {"B 99999", nil, ""}, {"ease B +1/8", nil, ""}, {"ease B 1/8 anticlockwise", nil, ""},
		{"E -1/4", nil, ""}, {"D 1/4", nil, ""}, {"lock E 1/8", nil, ""}, {"stuck E", nil, ""}, {"stuck", nil, ""}, {"wrong", nil, ""},
		{"B -1/4 foo", nil, ""}, {"B", nil, ""}, {"B 4:30", nil, ""}, {"stuck B 4", nil, ""},
	}
	for _, tt := range tests {
		c := onFace(optics.FaceTarget)
		s, err := Parse(tt.typed, c)
		if tt.want == nil {
			require.Error(t, err, tt.typed)
			checkError(t, err, c)
			continue
		}
		require.NoError(t, err, tt.typed)
		assert.Equal(t, SaidTurned, s.Kind, tt.typed)
		assert.Equal(t, tt.want, s.Turned, tt.typed)
		assert.Equal(t, tt.echo, s.Echo(), tt.typed)
	}
}

// An amount without a sign on a screw that was to be eased could mean either.
func TestAmountWithoutASignIsAskedBack(t *testing.T) {
	c := onFace(optics.FaceTarget)
	c.Told = &event.Told{Moves: []event.ToldMove{{Turn: optics.Turn{Mirror: optics.Primary, Screw: "B", Turns: -0.25}}}}
	_, err := Parse("B 1/8", c)
	assert.EqualError(t, err, `"B 1/8": which way? it was to be eased; say B -1/8 or B +1/8`)
	must(t, "B -1/8", c)
	must(t, "A 1/8", c)
	must(t, "ease B 1/8", c)
}

// Words come before screws, and a letter is a screw only when turns follow and
// the scope has it.
func TestLettersThatAreAlsoDirections(t *testing.T) {
	c := onFace(optics.FaceTarget)
	c.Tel.Primary.Labels = []string{"D", "R", "U", "L"}
	c.Tel.Primary.Screws = 4
	for typed, kind := range map[string]SaidKind{
		"D -1/4":     SaidTurned,
		"D 1/4":      SaidTurned,
		"R +1":       SaidTurned,
		"ease L 1":   SaidTurned,
		"U 1 turn":   SaidTurned,
		"r8.5 d8.5":  SaidPlace,
		"u 5 l 3":    SaidPlace,
		"down 5":     SaidPlace,
		"dead":       SaidDead,
		"dead laser": SaidLaserDead,
		"stuck D":    SaidScrew,
	} {
		assert.Equal(t, kind, must(t, typed, c).Kind, typed)
	}
	_, err := Parse("d 8", c)
	assert.ErrorContains(t, err, "both are wanted")

	c.Tel.Primary.Labels = []string{"A", "B", "C"}
	_, err = Parse("A quarter", c)
	assert.ErrorContains(t, err, "screw A?", "or the article at the beginning of a line")
	assert.Equal(t, SaidTurned, must(t, "A 1/4", c).Kind)
	assert.Equal(t, SaidPlace, must(t, "a quarter to 5 12", c).Kind)
}

func TestNoScrewInHand(t *testing.T) {
	c := onFace(optics.FacePrimary)
	c.Mirror = ""
	_, err := Parse("B -1/4", c)
	assert.EqualError(t, err, `"b": no screw of that name; no screw is in hand here; say 4:30 2r, in 4, dead, cant see, on 4, out 4, wall 4 or not there`)
}

// The secondary of this scope has no locks.
func TestLocksThatAreNotThere(t *testing.T) {
	c := onFace(optics.FacePrimary)
	c.Mirror = optics.Secondary
	for _, typed := range []string{"lock B 1/8", "stuck lock B"} {
		_, err := Parse(typed, c)
		assert.Error(t, err, typed)
	}
	assert.Equal(t, optics.Secondary, must(t, "B -1/4", c).Turned[0].Mirror)
}
