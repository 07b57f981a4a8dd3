package session_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"spotward/session"
	"spotward/session/answer"
	"spotward/session/event"
	"spotward/session/scope"
)

// What ends the work is not taken from a "no", and a letter that is a command too
// is asked back.
func TestAChoiceIsNotGuessed(t *testing.T) {
	p := play(t, scope.Builtin())
	_, err := answer.Line(p.State(), "d")
	require.Error(t, err, "dropped forgets what the screws have taught")
	p.line("routine", "none")
	p.refuses("w", "wide, or why?")
	assert.True(t, answer.Begins(p.State().Ask(), "W"))
	assert.False(t, answer.Begins(p.State().Ask(), "wide"))
	assert.False(t, answer.Begins(p.State().Ask(), "x"))
	p.line("still", "dead", "2 11").at(session.StageVerdict, "verdict")
	for _, line := range []string{"no", "n", "not", "No"} {
		p.refuses(line, "say ")
	}
	p.refuses("b", "both, or back?")
	for line, want := range map[string]string{"not today": session.VerdictNotToday, "l": session.VerdictLeave, "bo": session.VerdictBoth, "sec": session.VerdictSecondary} {
		typed, err := answer.Line(p.State(), line)
		require.NoError(t, err, line)
		assert.Equal(t, want, typed.Events[0].Choice, line)
	}
	typed, err := answer.Line(p.State(), "back")
	require.NoError(t, err)
	assert.Equal(t, event.KindBack, typed.Events[0].Kind)

	p = play(t, scope.Builtin()).line("routine", "none", "still", "4 1", "home", "leave").at(session.StagePutAway, "tag")
	p.refuses("h", "hold back, or help?")
	p.line("hold")
	assert.Equal(t, session.TagHoldBack, p.State().Tag)
}
