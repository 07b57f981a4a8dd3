package align

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"spotward/optics"
	"spotward/session"
	"spotward/session/answer"
	"spotward/session/event"
	"spotward/session/scope"
)

// What is shown as an example is what the question takes: none where it says none, and
// a shadow goes down no hole, though a return spot does, in the swing as well.
func TestExamplesAreOfWhatIsAsked(t *testing.T) {
	sc := scope.Builtin()
	s, err := session.Start(event.Event{ID: "20260101T000000Z-0001", Scope: &sc}, nil)
	require.NoError(t, err)
	seen := map[session.StageID]bool{}
	lines := map[optics.Face]string{optics.FaceCard: "none", optics.FacePrimary: "dead", optics.FaceSecondary: "two 9 3", optics.FaceTarget: "home even"}
	for n := 0; !seen[session.StageShadow]; n++ {
		require.Less(t, n, 40)
		ask, line := s.State().Ask(), "1"
		if ask.Want == session.WantReading {
			line = lines[ask.Face]
			seen[ask.Stage.ID] = true
			var typed []string
			for _, e := range examplesFor(s.State(), true) {
				typed = append(typed, e.Typed)
				_, err := answer.Line(s.State(), e.Typed)
				assert.NoError(t, err, "%s: %s", ask.Stage.ID, e.Typed)
			}
			assert.Equal(t, ask.Face == optics.FaceTarget && ask.Stage.ID != session.StageShadow, slices.Contains(typed, "home"), "%s: %v", ask.Stage.ID, typed)
			assert.Equal(t, ask.Stage.ID == session.StageLaserIn, slices.Contains(typed, "none"), "%s: %v", ask.Stage.ID, typed)
		}
		if seen[session.StageShadow] {
			break
		}
		if ask.Stage.ID == session.StagePutAway {
			line = "finer"
		}
		if ask.Stage.ID == session.StageVerdict {
			line = "both"
		}
		got, err := answer.Line(s.State(), line)
		require.NoError(t, err, "%s: %q", ask.Stage.ID, line)
		require.NoError(t, s.Do(got.Events...), "%s: %q", ask.Stage.ID, line)
	}
	assert.True(t, seen[session.StageSwing])
}
