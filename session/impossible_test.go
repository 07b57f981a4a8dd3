package session_test

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"spotward/session"
	"spotward/session/scope"
)

// Minutes after a reading, on a scope that nobody has touched.
func TestATenfoldReadingOfAnUntouchedSpotIsAskedAbout(t *testing.T) {
	p := play(t, scope.Builtin()).line("routine", "", "still", "10 3.5", "2 5", "back").at(session.StageFirstLook, "p")
	p.refuses("10 35", "it stood at 3.5 mm, and nothing was turned since: 3.5 mm? say 10:00 3.5 or 10:00 35 mm")
	p.line("10 35 mm").at(session.StageFirstLook, "p")
	assert.Contains(t, p.State().Ask().Say, "do not go together", "meant, it is looked at again")
	p.line("10 35 mm").at(session.StageFirstLook, "t")

	p = play(t, scope.Builtin()).line("routine", "", "still", "10 3.5", "not there", "both").at(session.StageSecondary, "p")
	p.line("10 35")
}
