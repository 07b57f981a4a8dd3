package session_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"spotward/session"
	"spotward/session/event"
	"spotward/session/scope"
)

// What the records say is told before anything is turned and where the tag is
// chosen, and nowhere between.
func TestWhatTheRecordsSayIsTold(t *testing.T) {
	const said = "Dunlin came back out in 6 of its last 8 looks."
	sc := scope.Builtin()
	s, err := session.Start(event.Event{ID: "x", Scope: &sc, Check: true, Before: []string{said, "Blue box:\x1b[2J hold it back."}}, nil)
	require.NoError(t, err)
	told := map[session.StepID]bool{}
	for n := 0; !s.State().Over; n++ {
		require.Less(t, n, 30)
		ask, ev := s.State().Ask(), event.Event{Kind: event.KindConfirm}
		switch ask.Want {
		case session.WantChoice:
			ev = event.Event{Kind: event.KindChoice, Choice: ask.Options[0].ID}
		case session.WantReading:
			ev = event.Event{Kind: event.KindReading, Face: ask.Face, Saw: event.SawPlace, Right: 3}
		}
		assert.NotContains(t, ask.Note, "\x1b")
		if len(ask.Note) >= len(said) && ask.Note[:len(said)] == said {
			told[ask.Step] = true
		}
		require.NoError(t, s.Do(ev))
	}
	assert.Equal(t, map[session.StepID]bool{session.StepWhy: true, session.StepTag: true}, told)
}
