package desk_test

import (
	"fmt"
	"os"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"spotward/optics"
	"spotward/session"
	"spotward/session/event"
	"spotward/session/scope"
	"spotward/session/sessiontest"
	"spotward/session/words"
	"spotward/views/desk"
)

// exact is the line of somebody who does as told and reads to the millimetre.
func exact(t *testing.T, w *desk.Work) string {
	t.Helper()
	s := w.State()
	ask := s.Ask()
	if ask.Want != session.WantReading || ask.Told != nil {
		return ""
	}
	view, ok := w.Look(ask.Face)
	require.True(t, ok)
	for _, f := range ask.Faces {
		if v, _ := w.Look(f); f != ask.Face && !view.Visible && v.Visible {
			return sessiontest.PlaceWord(f) + " " + words.ReadingText(s.Tel.ToDial(f, v.Seen))
		}
	}
	switch {
	case ask.Face == optics.FaceTarget && view.InHole && view.Uneven():
		return "home " + words.ClockText(s.Tel.ToDial(ask.Face, view.Glow))
	case ask.Face == optics.FaceTarget && view.InHole:
		return "even"
	case !view.Visible && ask.Face == optics.FaceTarget:
		return "not on the face"
	case !view.Visible:
		return "gone"
	}
	return words.ReadingText(s.Tel.ToDial(ask.Face, view.Seen))
}

// A return spot that is seen beside the outgoing one, as near to it as it is
// wanted, is looked for on the face: there is nothing to turn, and the same
// question would be asked for ever. These once had no end;
// TestTheMoveAfterASearchIsToldAtOnce holds the question itself.
func TestTheSearchComesBackToTheFace(t *testing.T) {
	data, err := os.ReadFile("../../testdata/scopes/wren.toml")
	require.NoError(t, err)
	scope, err := scope.DecodeScope(data)
	require.NoError(t, err)
	for _, seed := range []uint64{9, 49, 59, 63} {
		t.Run(fmt.Sprint(seed), func(t *testing.T) {
			d := newDesk(t)
			w, err := d.Practice(scope, event.World{Seed: seed, Level: "easy"})
			require.NoError(t, err)
			for n := 0; !w.Over(); n++ {
				ask := w.State().Ask()
				require.Less(t, n, 100, "no end in sight at %s, %s", ask.Stage.ID, ask.Step)
				_, err := w.Line(exact(t, w))
				require.NoError(t, err)
				if events := w.State().Events(); len(events) > 0 {
					if told := events[len(events)-1].Told; told != nil && len(told.Moves) == 0 {
						assert.Equal(t, optics.FaceTarget, w.State().Ask().Face)
						assert.Nil(t, w.State().Told(), "nothing is waited for")
					}
				}
			}
			assert.Equal(t, session.OutcomeAligned, w.State().Outcome)
			id, err := w.Close()
			require.NoError(t, err)
			lines, _, err := d.Library.ReadJournal(id)
			require.NoError(t, err)
			r, over, err := sessiontest.Summarise(lines)
			require.NoError(t, err)
			assert.True(t, over)
			assert.Equal(t, session.OutcomeAligned, r.Outcome, "and its journal says the same")
		})
	}
}
