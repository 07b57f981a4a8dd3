package session_test

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"spotward/session"
	"spotward/session/answer"
	"spotward/session/event"
	"spotward/session/scope"
)

// At the hole's question a word, and a key of the number pad, give the hole's answers.
func TestTheHolesAnswersAreTyped(t *testing.T) {
	s := play(t, scope.Builtin()).line("routine", "none", "still", "dead").at(session.StageFirstLook, "t").State()
	for line, want := range map[string]event.Glow{
		"even": event.GlowEven, ".": event.GlowEven, "home even": event.GlowEven, "home, rays even": event.GlowEven,
		"home 4": event.GlowSide, "down the hole, brighter toward 4": event.GlowSide, "home": "", "even all round": event.GlowEven,
	} {
		typed, err := answer.Line(s, line)
		if !assert.NoError(t, err, line) || !assert.Len(t, typed.Events, 1, line) {
			continue
		}
		ev := typed.Events[0]
		assert.Equal(t, event.SawHome, ev.Saw, line)
		assert.Equal(t, want, ev.Glow, line)
	}
}
