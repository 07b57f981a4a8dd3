package desk_test

import (
	"regexp"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"spotward/optics"
	"spotward/optics/virtual"
	"spotward/session"
	"spotward/session/event"
	"spotward/session/scope"
	"spotward/session/shelf"
	"spotward/views/desk"
	"spotward/views/practice"
)

func begin(t *testing.T, l *shelf.Shelf, level virtual.Level, seed uint64) *desk.Work {
	t.Helper()
	d := &desk.Desk{Library: l, Program: "test", Now: time.Now}
	w, err := d.Practice(scope.Builtin(), event.World{Seed: seed, Level: string(level)})
	require.NoError(t, err)
	return w
}

// until types what an obedient trainee with these eyes types until a stage is
// reached.
func benchUntil(t *testing.T, w *desk.Work, id session.StageID) {
	t.Helper()
	for n := 0; w.State().Ask().Stage.ID != id; n++ {
		require.Less(t, n, 60, "never came to %s", id)
		ask, line := w.State().Ask(), ""
		if ask.Want == session.WantReading && ask.Told == nil {
			line = w.Bench.World().Eyes(ask.Face).String()
		}
		benchTyped(t, w, line)
	}
}

func benchTyped(t *testing.T, w *desk.Work, lines ...string) {
	t.Helper()
	for _, line := range lines {
		_, err := w.Line(line)
		require.NoError(t, err, line)
	}
}

// A picture has no figures to copy, so the words have none.
func TestWordsHaveNoFigures(t *testing.T) {
	figure := regexp.MustCompile(`[0-9]`)
	rapid.Check(t, func(rt *rapid.T) {
		level := rapid.SampledFrom([]virtual.Level{virtual.Easy, virtual.Usual, virtual.Hard}).Draw(rt, "level")
		w := begin(t, nil, level, rapid.Uint64().Draw(rt, "seed"))
		world := w.Bench.World()
		world.LaserOn(rapid.Bool().Draw(rt, "lit"))
		world.Card(rapid.Bool().Draw(rt, "card"))
		for _, f := range []optics.Face{optics.FacePrimary, optics.FaceSecondary, optics.FaceMouth, optics.FaceTarget, optics.FaceCard} {
			words := w.Bench.Look(f).Words
			assert.NotEmpty(rt, words)
			assert.False(rt, figure.MatchString(words), words)
			assert.True(rt, strings.HasSuffix(words, "."), words)
			assert.NotContains(rt, words, "%!")
		}
	})
}

// Whoever hears the words can say in which of eight directions the spot stands
// and be right within what eyes would make of a picture.
func TestWordsPointTheRightWay(t *testing.T) {
	seen := 0
	for seed := range uint64(40) {
		w := begin(t, nil, virtual.Usual, seed)
		w.Bench.World().LaserOn(true)
		v := w.Bench.Look(optics.FacePrimary)
		d := w.State().Tel.ToDial(optics.FacePrimary, v.Seen)
		if !v.Visible || d.Len() < 10 {
			continue
		}
		seen++
		first, _, _ := strings.Cut(v.Words, ".")
		assert.Equal(t, d.Right > 0, strings.Contains(first, "right") || d.Right > 0 && !strings.Contains(first, "left"), "%v %s", d, first)
		assert.Equal(t, d.Up > 0, strings.Contains(first, "high") || strings.Contains(first, "above") || d.Up > 0 && !strings.Contains(first, "low") && !strings.Contains(first, "below"), "%v %s", d, first)
	}
	assert.Greater(t, seen, 20)
}

func TestBeforeTheLaserIsOnThereIsNoRed(t *testing.T) {
	w := begin(t, nil, virtual.Easy, 7)
	assert.Contains(t, w.Bench.Look(optics.FacePrimary).Words, "No red anywhere")
	benchUntil(t, w, session.StageFirstLook)
	assert.Contains(t, w.Bench.Look(optics.FacePrimary).Words, "A red spot")
}

// What the hand did unasked is said, and is nothing to be called by its name.
func TestWhatTheHandDidUnasked(t *testing.T) {
	w := begin(t, nil, virtual.Usual, 8123)
	benchTyped(t, w, "", "4", "", "4:30 2.2r", "", "2:30 22", "", "free C", "3 5")
	require.Equal(t, session.StepSnug, w.State().Ask().Step)
	assert.Equal(t, "Here your hand has snugged all three.", w.Felt())
	assert.False(t, w.Bench.Names())
}

func TestWhatHandsFelt(t *testing.T) {
	tests := []struct {
		name  string
		stage session.StageID
		lines []string
		want  string
	}{
		{"against a lock that holds", session.StageRough, []string{"screw A +1/2"}, "A stops and will go no further: it is stuck."},
		{"a lock forced", session.StageRough, []string{"lock B +1"}, "Lock B has come up hard: it is at its end."},
		{"a lock eased too far", session.StageRough, []string{"lock B -1 1/2"}, "Lock B has come free"},
		{"against the bolt", session.StageSecondary, []string{"A +1"}, "A binds"},
		{"nothing special", session.StageSecondary, []string{"A -1/16"}, ""},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			w := begin(t, nil, virtual.Easy, 7)
			benchUntil(t, w, tt.stage)
			benchTyped(t, w, tt.lines...)
			if tt.want == "" {
				assert.Empty(t, w.Felt())
				return
			}
			assert.Contains(t, w.Felt(), tt.want)
			benchTyped(t, w, "gone")
			assert.Empty(t, w.Felt(), "felt in the turns since the last answer only")
		})
	}
}

func TestWrongActsAreSpokenOfAfterwards(t *testing.T) {
	w := begin(t, nil, virtual.Easy, 7)
	benchUntil(t, w, session.StageSecondary)
	benchTyped(t, w, "card off", "swing", "A +1", "gone", "stop safely", "yes")
	said := strings.Join(w.Bench.Afterwards(), "\n")
	assert.Contains(t, said, "true axis error")
	assert.NotContains(t, strings.Join(w.Bench.AfterPart(), "\n"), "true axis error")
	assert.Contains(t, said, "For next time: the tube was swung with the laser on and no card over the end.")
	assert.Contains(t, said, "For next time: a screw was tightened against a taut centre bolt: none had been eased.")
}

func TestTakenUpAgainAfterWrongActs(t *testing.T) {
	l, err := shelf.Open(t.TempDir())
	require.NoError(t, err)
	w := begin(t, l, virtual.Hard, 11)
	benchUntil(t, w, session.StageSecondary)
	benchTyped(t, w, "card off", "A +1/8", "swing", "B -1", "C +2", "knock", "laser off")
	want, deeds := w.Bench.World().Truth(), w.Bench.World().Deeds()
	onPrimary, read := w.Bench.LastOn(optics.FacePrimary)
	require.True(t, read)
	benchTyped(t, w, "quit")
	_, err = w.Close()
	require.NoError(t, err)

	d := &desk.Desk{Library: l, Program: "test", Now: time.Now}
	again, err := d.TakeUp(w.State().ID)
	require.NoError(t, err)
	assert.Equal(t, want, again.Bench.World().Truth())
	assert.Equal(t, deeds, again.Bench.World().Deeds())
	onPrimaryAgain, _ := again.Bench.LastOn(optics.FacePrimary)
	assert.Equal(t, onPrimary, onPrimaryAgain)
	assert.Contains(t, again.Bench.Look(optics.FacePrimary).Words, "No red anywhere")
}

func TestComparing(t *testing.T) {
	at := optics.AtHour
	tests := []struct {
		name          string
		read, there   optics.Dial
		good, swapped bool
	}{
		{"as it is", at(4.5, 12), at(4.5, 12), true, false},
		{"half an hour and a fifth off", at(5, 14.4), at(4.5, 12), true, false},
		{"an hour off", at(5.5, 12), at(4.5, 12), false, false},
		{"a third too short", at(4.5, 8), at(4.5, 12), false, false},
		{"left for right", at(7.5, 12), at(4.5, 12), false, true},
		{"in the middle", optics.Dial{}, at(3, 1.2), true, false},
		{"near the middle, on the other side", at(9, 1), at(3, 1.2), false, false},
		{"straight up has no left and right", at(6, 12), at(12, 12), false, false},
	}
	for _, tt := range tests {
		c := practice.Compared{Read: tt.read, There: tt.there, Placed: true}
		assert.Equal(t, tt.good, c.Good(), tt.name)
		assert.Equal(t, tt.swapped, c.Swapped(), tt.name)
	}
}

// A reading of nothing is not honest, however near it is to where something
// would be.
func TestReadHonestly(t *testing.T) {
	at := optics.AtHour
	for _, c := range []struct {
		name        string
		read, there optics.Dial
		seen, want  bool
	}{
		{"as it is", at(4.5, 12), at(4.5, 12), true, true},
		{"clumsy", at(5, 16), at(4.5, 12), true, true},
		{"in the middle, and it is 20 mm off", optics.Dial{}, at(3, 20), true, false},
		{"nothing was there", at(4.5, 12), at(4.5, 12), false, false},
	} {
		assert.Equal(t, c.want, practice.Compared{Read: c.read, There: c.there, Seen: c.seen}.Honest(), c.name)
	}
	for _, c := range []struct {
		name string
		said practice.Compared
		want bool
	}{
		{name: "gone, and it was", said: practice.Compared{Gone: true}, want: true},
		{name: "gone, and it was there", said: practice.Compared{Gone: true, Seen: true}},
		{name: "home, seen going in", said: practice.Compared{Home: true, Seen: true, InHole: true}, want: true},
		{name: "home, beside the hole", said: practice.Compared{Home: true, Seen: true, There: at(3, 3.2)}},
	} {
		assert.Equal(t, c.want, c.said.Honest(), c.name)
	}
}

func TestUnknownLevel(t *testing.T) {
	_, err := practice.New(scope.Builtin().Telescope(), event.World{Level: "nice"})
	assert.ErrorIs(t, err, practice.ErrLevel)
}

func TestASlippedKeyIsFelt(t *testing.T) {
	for seed := range uint64(60) {
		w := begin(t, nil, virtual.Hard, seed)
		benchUntil(t, w, session.StageFirstLook)
		for range 8 {
			benchTyped(t, w, "A -1/16")
			if strings.Contains(w.Felt(), "the key slipped out of the head half way") {
				return
			}
		}
	}
	t.Fatal("no key ever slips in a first-timer's hands")
}

func TestPossibleMoves(t *testing.T) {
	for seed := range uint64(10) {
		b := begin(t, nil, virtual.Easy, seed).Bench
		truth := b.World().Truth()
		at := truth.Spots.P.Sub(truth.Ring)
		per := truth.Secondary.PerTurn
		pair := per[1].Sub(per[0])
		across := optics.Tube{X: -pair.Y, Y: pair.X}
		goal := func(at optics.Tube) optics.Goal { return optics.Goal{At: at, InsideMM: 0.5} }
		assert.Equal(t, 0, b.Possible(optics.Secondary, goal(at)))
		assert.Equal(t, 1, b.Possible(optics.Secondary, goal(at.Add(pair.Scale(1./8)))))
		assert.Equal(t, 1, b.Possible(optics.Primary, goal(truth.Spots.T.Add(truth.Primary.PerTurn[2].Scale(-1./4)))))
		assert.Equal(t, 2, b.Possible(optics.Primary, goal(truth.Spots.T.Add(truth.Primary.PerTurn[2].Scale(-3./4)))), "two bites")
		assert.Less(t, 1, b.Possible(optics.Secondary, goal(at.Add(across.Scale(1./8)))))
	}
}
