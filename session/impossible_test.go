package session_test

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"spotward/session"
	"spotward/session/scope"
)

// Minutes after a reading, on a scope that nobody has touched.
func TestATenfoldReadingOfAnUntouchedSpotIsAskedAbout(t *testing.T) {
	p := play(t, scope.Builtin()).line("routine", "none", "still", "10 1.5", "2 5", "back").at(session.StageFirstLook, "p")
	p.refuses("10 15", "it stood at 1.5 mm, and nothing was turned since: 1.5 mm? say 10:00 1.5 or 10:00 15 mm")
	p.line("10 15 mm").at(session.StageFirstLook, "p")
	assert.Contains(t, p.State().Ask().Say, "do not agree", "meant, it is looked at again")
	p.line("10 15 mm")
	assert.NotEqual(t, session.StageFirstLook, p.State().Stage().ID, "taken")

	p = play(t, scope.Builtin()).line("routine", "none", "still", "10 6").at(session.StageSecondary, "p")
	p.line("10 35")
}
