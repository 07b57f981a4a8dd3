package desk_test

import (
	"fmt"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"

	"spotward/optics"
	"spotward/session"
	"spotward/session/event"
	"spotward/session/scope"
	"spotward/session/sessiontest"
	"spotward/views/desk"
)

// otherWords answers every text with one that has nothing in common with it.
func otherWords(string) string { return fmt.Sprintf("%x.", rand.Uint64()) }

// facts are what is asked and told, without the words for it.
func facts(s session.State) string {
	ask := s.Ask()
	var ids []string
	for _, o := range ask.Options {
		ids = append(ids, o.ID)
	}
	told := ""
	if ask.Told != nil {
		told = fmt.Sprint(ask.Told.Group, ask.Told.Turns(), ask.Told.Learning, ask.Told.Trust, ask.Told.Ask == "")
	}
	return fmt.Sprint(ask.Stage.ID, ask.Step, ask.Want, ask.Face, ask.Header, ids, ask.Dial, ask.Goal, ask.Again, told, s.Over, s.Verdict, s.Tag, s.Outcome, s.Looks, s.Moves)
}

// The practice telescope takes no fact out of a sentence either: where every
// sentence of the session is another one, it does and shows the same.
func TestPracticeDoesNotHangOnWords(t *testing.T) {
	sessiontest.Whole(t)
	for _, c := range []struct {
		level string
		seed  uint64
	}{
		{"finer-ring", 4}, {"usual", 5}, {"hard", 3},
	} {
		d := newDesk(t)
		d.Library = nil
		var both [2]*desk.Work
		for i := range both {
			w, err := d.Practice(scope.Builtin(), event.World{Seed: c.seed, Level: c.level})
			require.NoError(t, err)
			both[i] = w
		}
		plain, other := both[0], both[1]
		other.Session.Reword(otherWords)
		take := func(line string) {
			_, err := plain.Line(line)
			_, again := other.Line(line)
			require.NoError(t, err, line)
			require.NoError(t, again, line)
		}
		take("finer")
		for n := 0; !plain.Over(); n++ {
			require.Less(t, n, 300, "no end in sight")
			require.NotEqual(t, plain.State().Ask().Say, other.State().Ask().Say)
			require.Equal(t, facts(plain.State()), facts(other.State()))
			require.Equal(t, plain.See(), other.See())
			require.Equal(t, plain.Felt(), other.Felt())
			require.Equal(t, plain.Bench.World().Truth(), other.Bench.World().Truth())
			for _, f := range []optics.Face{optics.FacePrimary, optics.FaceTarget, optics.FaceCard} {
				require.Equal(t, plain.Bench.World().Sight(f), other.Bench.World().Sight(f))
			}
			require.Equal(t, plain.Bench.Ideal(plain.State(), session.VerdictBoth), other.Bench.Ideal(other.State(), session.VerdictBoth))
			line := finerLine(plain)
			if ask := plain.State().Ask(); line == "" && ask.Want == session.WantReading && ask.Told == nil {
				line = plain.Bench.World().Eyes(ask.Face).String()
			}
			take(line)
			if screw, is := stuck(plain.Felt()); is && plain.State().Told() == nil {
				take("stuck " + screw)
			}
		}
		require.Equal(t, facts(plain.State()), facts(other.State()))
		require.Equal(t, plain.Bench.Tally(), other.Bench.Tally())
	}
}
