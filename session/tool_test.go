package session_test

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"spotward/optics"
	"spotward/session"
	"spotward/session/answer"
	"spotward/session/event"
	"spotward/session/header"
	"spotward/session/scope"
)

// The key in hand is the one for what is told: a screw can be told between the locks,
// and locks with the first screw. After the locks a look that says what the one before
// said is not called a pull of theirs.
func TestTheToolIsForWhatIsTold(t *testing.T) {
	s := start(t, nil)
	seen := map[header.Tool]int{}
	for _, line := range []string{
		"routine", "8 45", "still", "8 1.4r", "6 5", "8:45 3", "8:15 3.5", "7 1.3", "6:45 1.2",
		"two 7:45 18", "11:45 8.7", "1 4", "home 6:30", "home 7:45", "home 7:45", "home 7:45", "home 8", "home 8:15",
	} {
		typed, err := answer.Line(s.State(), line)
		require.NoError(t, err, line)
		require.NoError(t, s.Do(typed.Events...), line)
		ask := s.State().Ask()
		assert.NotContains(t, ask.Say, "pulled it off", "after %q", line)
		if ask.Told == nil || s.State().Working() != optics.Primary {
			continue
		}
		seen[ask.Header.Tool]++
		screws := ask.Told.Of()
		switch locks := len(ask.Told.Moves) - screws; {
		case screws > 0 && locks > 0:
			assert.Equal(t, header.ToolPrimaryAndLocks, ask.Header.Tool, "after %q", line)
		case screws > 0:
			assert.Equal(t, header.ToolPrimary, ask.Header.Tool, "after %q", line)
			if ask.Stage.ID == session.StageRetighten {
				seen["between"]++
			}
		default:
			assert.Equal(t, header.ToolLocksShort, ask.Header.Tool, "after %q", line)
		}
	}
	for _, tool := range []header.Tool{header.ToolPrimary, header.ToolPrimaryAndLocks, header.ToolLocksShort, "between"} {
		assert.Positive(t, seen[tool], "%s was never needed: %v", tool, seen)
	}
}

// Nobody looks through a focuser that the laser is still in.
func TestBackAtTheEmptyFocuserTheLaserComesOutFirst(t *testing.T) {
	const first = "Laser off and out of the focuser first."
	p := play(t, scope.Builtin()).line("dropped")
	assert.NotContains(t, p.State().Ask().Say, first, "it is not in yet")
	p.line("unknown", "4:30", "still", "b", "b")
	require.Equal(t, session.StageEmpty, p.State().Ask().Stage.ID)
	assert.Contains(t, p.State().Ask().Say, first)
}

// What a move should do is nothing that was seen: only other spots say that it is home.
func TestAToldMoveDoesNotSayThatItIsHome(t *testing.T) {
	const says = "By the other spots it is home."
	p := play(t, scope.Builtin()).line("routine", "none", "still", "8 22", "dead", "dead", "two 5:15 2")
	require.Equal(t, session.StageRough, p.State().Ask().Stage.ID)
	if p.State().Told() == nil {
		assert.Contains(t, p.State().Ask().Say, says)
	}
	for mm := 3; mm < 20; mm += 4 {
		p := play(t, scope.Builtin()).line("routine", "none", "still", "8 22", "dead", "dead", fmt.Sprintf("two 5:15 %d", mm))
		told := p.State().Told()
		if told == nil {
			continue
		}
		require.NoError(t, p.Do(event.Event{Kind: event.KindTurned, Turned: told.Turns()}))
		assert.NotContains(t, p.State().Ask().Say, says, "%d mm", mm)
		for range 6 { // nor does it where none was found
			if p.State().Ask().Face == optics.FaceTarget {
				p.line("not on the face")
			} else {
				p.line("gone")
			}
			assert.NotContains(t, p.State().Ask().Say, says, "%d mm", mm)
		}
	}
}
