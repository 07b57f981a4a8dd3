package desk_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"spotward/optics/virtual"
	"spotward/session"
	"spotward/session/event"
	"spotward/session/scope"
	"spotward/views/desk"
)

// toMove types its way to the first move that is told.
func toMove(t *testing.T, w *desk.Work) {
	t.Helper()
	for n := 0; w.State().Told() == nil; n++ {
		require.Less(t, n, 40)
		typeNext(t, w)
	}
}

func TestGoingWithoutAdvice(t *testing.T) {
	w, err := newDesk(t).Practice(scope.Builtin(), event.World{Seed: 7, Level: string(virtual.Easy)})
	require.NoError(t, err)
	toMove(t, w)
	told := w.State().Told()
	before := w.Bench.World().Truth()

	_, err = w.Line("hide")
	require.NoError(t, err)
	assert.True(t, w.AdviceHidden())
	ask := w.Shown().Ask()
	assert.Nil(t, ask.Told)
	assert.Contains(t, ask.Say, "what you think right")
	assert.Equal(t, told, w.State().Told(), "hidden, not gone")
	assert.Nil(t, w.Shown().Told())
	for _, line := range []string{"", "4 9", "other way"} {
		_, err = w.Line(line)
		assert.ErrorContains(t, err, "the advice is hidden", line)
	}
	assert.Equal(t, before, w.Bench.World().Truth(), "nothing was turned that nobody said")

	_, err = w.Line("A -1/16")
	require.NoError(t, err)
	assert.NotEqual(t, before, w.Bench.World().Truth())
	assert.Equal(t, 1, w.State().Moves)
	_, err = w.Line(w.Bench.World().Eyes(w.State().Ask().Face).String())
	require.NoError(t, err)

	_, err = w.Line("show")
	require.NoError(t, err)
	assert.False(t, w.AdviceHidden())
	assert.Equal(t, w.State().Ask().Told, w.Shown().Ask().Told)
	_, err = w.Line("")
	require.NoError(t, err)
}

func TestWhatAQuestionItselfAsksIsNotHidden(t *testing.T) {
	w, err := newDesk(t).Practice(scope.Builtin(), event.World{Seed: 9, Level: "lesson-return"})
	require.NoError(t, err)
	for n := 0; w.State().Ask().Step != session.StepEase || w.State().Told() == nil; n++ {
		require.Less(t, n, 60)
		typeNext(t, w)
	}
	_, err = w.Line("hide")
	require.NoError(t, err)
	assert.NotNil(t, w.Shown().Ask().Told, "the locks are eased as asked")
	_, err = w.Line("")
	require.NoError(t, err)
}

func TestARealScopeHidesNothing(t *testing.T) {
	w, err := newDesk(t).Align(scope.Builtin(), false)
	require.NoError(t, err)
	_, err = w.Line("hide")
	assert.Error(t, err)
	assert.False(t, w.AdviceHidden())
}
