package desk_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"spotward/session"
	"spotward/session/event"
	"spotward/session/scope"
	"spotward/views/desk"
)

// Whoever turns without advice can know what a turn does, where the spot is and
// where it is wanted.
func TestWhatIsLearntIsToldWithoutAdvice(t *testing.T) {
	w, err := newDesk(t).Practice(scope.Builtin(), event.World{Seed: 3, Level: "usual"})
	require.NoError(t, err)
	assert.Nil(t, desk.LearntOf(w.State()).Screws, "nothing was read")
	until(t, w, session.StageSecondary)
	w.Advise(false)
	learnt := desk.LearntOf(w.Shown())
	require.Len(t, learnt.Screws, 3)
	assert.Contains(t, learnt.Where, "It is wanted within")
}
