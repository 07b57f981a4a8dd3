package answer_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"spotward/session/answer"
	"spotward/session/event"
	"spotward/session/scope"
)

// The cue that was told holds until something is seen of the move: "=" after Enter is
// what "=" in place of Enter is. Of another move there was none.
func TestTheCueHoldsOnceTheMoveIsMade(t *testing.T) {
	told := func() player {
		p := play(t, scope.Builtin()).line("routine", "none", "still", "8 22")
		require.NotNil(t, p.State().Told())
		return p
	}
	at, err := answer.Line(told().State(), "=")
	require.NoError(t, err)
	made := told()
	require.NoError(t, made.Do(event.Event{Kind: event.KindTurned, Turned: made.State().Told().Turns()}))
	for _, same := range []string{"=", "+"} {
		got, err := answer.Line(made.State(), same)
		require.NoError(t, err, same)
		want := at.Events[len(at.Events)-1]
		assert.Equal(t, [2]float64{want.Right, want.Up}, [2]float64{got.Events[0].Right, got.Events[0].Up}, same)
	}
	other := told()
	turns := other.State().Told().Turns()
	turns[0].Turns *= -1
	require.NoError(t, other.Do(event.Event{Kind: event.KindTurned, Turned: turns}))
	_, err = answer.Line(other.State(), "=")
	assert.ErrorContains(t, err, "no place to stop at was told")
}

// A letter is said back as what it stands for.
func TestALetterIsSaidBackAsItsWord(t *testing.T) {
	p := play(t, scope.Builtin()).line("routine")
	for letter, word := range map[string]string{"u": "undo", "b": "back", "q": "quit"} {
		typed, err := answer.Line(p.State(), letter)
		require.NoError(t, err)
		assert.Equal(t, word, typed.Echo)
	}
}
