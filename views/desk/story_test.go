package desk_test

import (
	"fmt"
	"os"
	"regexp"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"spotward/optics/virtual"
	"spotward/session"
	"spotward/session/event"
	"spotward/session/scope"
	"spotward/session/sessiontest"
	"spotward/session/shelf"
	"spotward/views/desk"
)

func newDesk(t *testing.T) *desk.Desk {
	l, err := shelf.Open(t.TempDir())
	require.NoError(t, err)
	now := time.Date(2026, 3, 1, 19, 0, 0, 0, time.UTC)
	return &desk.Desk{Library: l, Who: "a volunteer", Where: "behind the shed", Program: "test", Now: func() time.Time {
		now = now.Add(20 * time.Second)
		return now
	}}
}

// typeNext types what a person at the practice telescope would type next.
func typeNext(t *testing.T, w *desk.Work) {
	t.Helper()
	typeDeaf(t, w)
	if screw, is := stuck(w.Felt()); is && w.State().Told() == nil {
		_, err := w.Line("stuck " + screw)
		require.NoError(t, err, w.Felt())
	}
}

// typeDeaf is typeNext by somebody who does not say what the hand feels.
func typeDeaf(t *testing.T, w *desk.Work) {
	t.Helper()
	s := w.State()
	ask := s.Ask()
	line := ""
	if ask.Want == session.WantReading && ask.Told == nil {
		line = w.Bench.World().Eyes(ask.Face).String()
	}
	_, err := w.Line(line)
	if err != nil && strings.Contains(err.Error(), "off the mirror") { // as its words say
		hour, _, _ := strings.Cut(line, " ")
		_, err = w.Line("wall " + hour)
	}
	require.NoError(t, err, "%q at %s %s", line, ask.Stage.ID, ask.Step)
}

// stuck returns the screw that the hand felt stuck.
func stuck(felt string) (screw string, is bool) {
	before, _, is := strings.Cut(felt, " stops and will go no further")
	if !is || strings.Contains(before, "Lock ") {
		return "", false
	}
	return before[len(before)-1:], true
}

func finish(t *testing.T, w *desk.Work) {
	t.Helper()
	for n := 0; !w.Over(); n++ {
		require.Less(t, n, 300, "no end in sight at %s", w.State().Stage().ID)
		typeNext(t, w)
	}
}

func TestPracticeByTypedLinesAlone(t *testing.T) {
	sessiontest.Whole(t)
	for _, level := range []virtual.Level{virtual.Easy, virtual.Usual} {
		for seed := range uint64(sessiontest.Of(1, 2, 6)) {
			t.Run(fmt.Sprint(level, seed), func(t *testing.T) {
				d := newDesk(t)
				w, err := d.Practice(scope.Builtin(), event.World{Seed: seed, Level: string(level)})
				require.NoError(t, err)
				finish(t, w)
				id, err := w.Close()
				require.NoError(t, err)
				records, errs := d.Library.Records()
				require.Empty(t, errs)
				require.Len(t, records, 1)
				r := records[0]
				assert.Equal(t, id, r.ID)
				assert.True(t, r.Practice)
				assert.Equal(t, "a volunteer", r.Who)
				assert.Equal(t, "behind the shed", r.Where)
				truth := w.Bench.World().Truth()
				t.Logf("%s %s: e %.2f, claimed %.2f within %.2f; looks %d, moves %d, nips %d", r.Verdict, r.Outcome, truth.ErrorMM, r.Left.AxisErrorMM, r.Left.AxisErrorMaxMM, r.Looks, r.Moves, r.Nips)
				if level == virtual.Easy {
					assert.Equal(t, session.OutcomeAligned, r.Outcome)
					assert.LessOrEqual(t, truth.ErrorMM, r.Left.AxisErrorMaxMM+0.3)
				}
			})
		}
	}
}

// A session that was left anywhere goes on before the same telescope.
func TestTakenUpBeforeTheSameTelescope(t *testing.T) {
	sessiontest.Whole(t)
	for _, after := range []int{13, 3, 22, 6, 9, 17}[:sessiontest.Of(1, 3, 6)] {
		d := newDesk(t)
		w, err := d.Practice(scope.Builtin(), event.World{Seed: 5, Level: string(virtual.Usual)})
		require.NoError(t, err)
		for range after {
			typeNext(t, w)
		}
		truth, stage := w.Bench.World().Truth(), w.State().Stage().ID
		_, err = w.Close()
		require.NoError(t, err)
		open, errs := d.Library.Unfinished(scope.Builtin().Name)
		require.Empty(t, errs)
		require.Len(t, open, 1)
		other := *d
		other.Program = "newer"
		again, err := other.TakeUp(open[0].ID)
		require.NoError(t, err)
		assert.Contains(t, again.Notice, "another version", "who goes on is told that the telescope may differ")
		_, err = again.Close()
		require.NoError(t, err)
		again, err = d.TakeUp(open[0].ID)
		require.NoError(t, err)
		assert.Empty(t, again.Notice)
		if again.State().Looks > 0 {
			assert.Equal(t, session.StepMoved, again.State().Ask().Step)
			_, err = again.Line("no")
			require.NoError(t, err)
		}
		assert.Equal(t, stage, again.State().Stage().ID)
		assert.Equal(t, truth.Pose, again.Bench.World().Truth().Pose)
		finish(t, again)
		_, err = again.Close()
		require.NoError(t, err)
	}
}

func TestWhatAScopeTaughtIsCarriedOn(t *testing.T) {
	data, err := os.ReadFile("../../testdata/scopes/wren.toml")
	require.NoError(t, err)
	sc, err := scope.DecodeScope(data)
	require.NoError(t, err)
	d := newDesk(t)
	w, err := d.Align(sc, false)
	require.NoError(t, err)
	for _, line := range []string{"routine", "none", "still", "4 12"} {
		_, err := w.Line(line)
		require.NoError(t, err)
	}
	for w.State().Stage().ID != session.StageSecondary {
		_, err := w.Line("")
		require.NoError(t, err)
	}
	require.Equal(t, session.StepManner, w.State().Ask().Step)
	for _, line := range []string{"2", "1 9", "1 4", "stop safely", "yes"} {
		_, err := w.Line(line)
		require.NoError(t, err)
	}
	_, err = w.Close()
	require.NoError(t, err)
	records, errs := d.Library.Records()
	require.Empty(t, errs)
	taught := d.Library.Taught(scope.Scope{Name: "WREN"}, records, d.Now())
	require.NotNil(t, taught["secondary"])
	again, err := d.Align(sc, false)
	require.NoError(t, err)
	assert.Equal(t, event.ByAmount, again.State().Stops, "it is asked once a scope")
	before, now := w.State().Learnt("secondary"), again.State().Tracker("secondary")
	for i := range sc.Telescope().Secondary.Screws {
		assert.InDelta(t, before.PerTurn[i].X, now.PerTurn(i).At.X, 1e-6)
		assert.InDelta(t, before.PerTurn[i].Y, now.PerTurn(i).At.Y, 1e-6)
	}
	_, err = again.Close()
	require.NoError(t, err)
}

// A screw that its lock holds up turns and moves nothing. Who does not say so
// is found out by what is seen.
func TestNobodySaysThatItIsStuck(t *testing.T) {
	for seed := range seeds(15) {
		d := newDesk(t)
		d.Library = nil // nothing of it is looked up again
		w, err := d.Practice(scope.Builtin(), event.World{Seed: seed, Level: string(virtual.Usual)})
		require.NoError(t, err)
		n := 0
		for ; !w.Over() && n < 250; n++ {
			typeDeaf(t, w)
		}
		assert.True(t, w.Over(), "seed %d: no end in sight at %s", seed, w.State().Stage().ID)
		t.Logf("seed %d: %s after %d lines, %d moves", seed, w.State().Outcome, n, w.State().Moves)
		_, err = w.Close()
		require.NoError(t, err)
	}
}

// seeds returns how many seeds are played: n with -long, else a few of them.
func seeds(n uint64) uint64 { return n / uint64(sessiontest.Of(8, 4, 1)) }

// honest types what somebody types who says what the hand feels, stops where
// that is advised, and does not claim to have put letters on that were there.
func honest(t *testing.T, w *desk.Work) {
	t.Helper()
	s := w.State()
	ask := s.Ask()
	line := ""
	switch told := s.Told(); {
	case told != nil && strings.Contains(told.Ask, "trained hands"), strings.Contains(ask.Say, "Nowhere at all"):
		line = "stop safely"
	case ask.Stage.ID == session.StageLabels && strings.Contains(w.See(), "already"):
		line = letters(w.See())
	default:
		typeDeaf(t, w)
		if said := feels(w.Felt()); said != "" && w.State().Told() == nil && w.State().Ask().Want == session.WantReading {
			_, err := w.Line(said)
			require.NoError(t, err, w.Felt())
		}
		return
	}
	_, err := w.Line(line)
	require.NoError(t, err, line)
}

// letters types where letters are seen: "A 2:00 B 5:30".
func letters(see string) string {
	_, list, _ := strings.Cut(strings.TrimSuffix(see, "."), ": ")
	list = strings.NewReplacer(" o'clock", ":00", ",", "").Replace(list)
	return regexp.MustCompile(`half past (\d+)`).ReplaceAllString(list, "$1:30")
}

// feels returns what is said of a screw that the hand felt stuck or free; "" for
// a lock, or nothing.
func feels(felt string) string {
	for words, is := range map[string]string{" stops and will go no further": "stuck ", " has come free": "free "} {
		if before, _, found := strings.Cut(felt, words); found && len(before) < len("A")+1 {
			return is + before
		}
	}
	return ""
}

// Hands and eyes of a first-timer, screws without letters or with wrong ones,
// one of them grabbing: it ends, aligned or with the advice to leave it to
// trained hands, and not after a night.
func TestHardPracticeEnds(t *testing.T) {
	sessiontest.Whole(t)
	outcomes := map[string]int{}
	for seed := range seeds(16) {
		d := newDesk(t)
		d.Library = nil // nothing of it is looked up again
		w, err := d.Practice(scope.Builtin(), event.World{Seed: seed, Level: string(virtual.Hard)})
		require.NoError(t, err)
		for n := 0; !w.Over(); n++ {
			require.Less(t, n, 160, "seed %d: no end in sight at %s", seed, w.State().Stage().ID)
			honest(t, w)
		}
		outcomes[w.State().Outcome]++
		_, err = w.Close()
		require.NoError(t, err)
	}
	if sessiontest.Long() { // of a few nothing can be told
		assert.GreaterOrEqual(t, outcomes[session.OutcomeAligned], 10, "%v", outcomes)
	}
}
