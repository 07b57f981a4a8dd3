package answer_test

import (
	"strings"
	"testing"
	"unicode"

	"github.com/stretchr/testify/require"

	"spotward/session"
	"spotward/session/answer"
	"spotward/session/event"
	"spotward/session/scope"
)

// standings are states at each kind of question, with and without moves told.
func standings(t require.TestingT) []session.State {
	sc := scope.Builtin()
	s, err := session.Start(event.Event{ID: "20260101T000000Z-0001", Scope: &sc}, nil)
	require.NoError(t, err)
	all := []session.State{s.State()}
	for range 40 {
		st := s.State()
		if st.Over {
			return all
		}
		ask, ev := st.Ask(), event.Event{Kind: event.KindConfirm}
		switch ask.Want {
		case session.WantChoice:
			ev = event.Event{Kind: event.KindChoice, Choice: ask.Options[0].ID}
			if ask.Stage.ID == session.StageVerdict {
				ev.Choice = session.VerdictBoth
			}
		case session.WantReading:
			ev = event.Event{Kind: event.KindReading, Face: ask.Face, Saw: event.SawPlace, Right: 6, Up: 4}
		}
		if s.Do(ev) == nil {
			all = append(all, s.State())
		}
	}
	return all
}

// Whatever is typed wherever the session stands: one line of error, or events
// that are taken or refused with one line, and an echo that a terminal can
// show.
func FuzzLine(f *testing.F) {
	for _, line := range []string{
		"", "1", "yes", "skip no time", "skip", "focuser 2:30", "stop safely", "u", "b", "4:30 12", "4 2r", "B -1/4", "other way",
		"stuck B", "wrong C", "home 2", "go on", "finer", "not sure", "2 rings", "\x1b]0;x\x07", "skip \x1b[2J\n", "focuser 1e308",
	} {
		for at := range uint8(3) {
			f.Add(line, at*7)
		}
	}
	states := standings(f)
	f.Fuzz(func(t *testing.T, line string, at uint8) {
		s := states[int(at)%len(states)]
		typed, err := answer.Line(s, line)
		if err != nil {
			require.NotContains(t, err.Error(), "\n")
			require.False(t, strings.ContainsFunc(err.Error(), unicode.IsControl), "%q", err)
			return
		}
		require.NotEmpty(t, typed.Events)
		for _, ev := range typed.Events {
			next, err := session.Apply(s, ev)
			if err != nil {
				require.NotContains(t, err.Error(), "\n")
				require.False(t, strings.ContainsFunc(err.Error(), unicode.IsControl), "%q", err)
				return
			}
			s = next
		}
		if !s.Over {
			require.NotEmpty(t, s.Ask().Say)
		}
	})
}

// What is asked is made with the state: to read a line no question is put together
// again.
func TestALineAsksNothingAnew(t *testing.T) {
	s := standings(t)[0]
	question, asked := s.Ask().Question, 0
	s = s.Reworded(func(text string) string {
		if text == question {
			asked++
		}
		return text
	})
	made := asked
	require.NotZero(t, made)
	for range 20 {
		answer.Context(s)
		_, err := answer.Line(s, "routine")
		require.NoError(t, err)
	}
	require.Equal(t, made, asked)
}
