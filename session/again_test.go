package session_test

import (
	"os"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"spotward/session"
	"spotward/session/event"
	"spotward/session/sessiontest"
)

// stays answers whether the scope was moved since, if that is asked.
func stays(t require.TestingT, s *session.Session) {
	if s.State().Ask().Step == session.StepMoved {
		require.NoError(t, s.Do(event.Event{Kind: event.KindChoice, Choice: session.MovedNo}))
	}
}

// A session that is left anywhere and taken up again goes the way that it would have
// gone, whatever follows, undo and redo with it. An undo over the place where it was
// left takes back as well that nothing was moved: that is asked again there.
func TestTakenUpIsAsIfNeverLeft(t *testing.T) {
	var answers, undone, over int
	rapid.Check(t, func(t *rapid.T) {
		keep := &memory{}
		s := startAt(t, rapid.SampledFrom(walksFrom()).Draw(t, "from"), keep)
		walk(t, s, func(event.Event, session.State, error) {})
		if s.State().Over {
			return
		}
		events, err := session.Events(keep.lines)
		require.NoError(t, err)
		again, err := session.TakeUp(events, nil, nil)
		require.NoError(t, err)
		stays(t, again)
		require.Equal(t, shown(s.State()), shown(again.State()))
		crossed := false
		walk(t, s, func(ev event.Event, _ session.State, err error) {
			if crossed {
				return
			}
			other := again.Do(ev)
			if ev.Kind == event.KindUndo && err == nil && again.State().Ask().Step == session.StepMoved {
				crossed, over = true, over+1
				require.NoError(t, again.Do(ev))
				stays(t, again)
			}
			require.Equal(t, err, other, "%+v", ev)
			require.Equal(t, shown(s.State()), shown(again.State()), "%+v", ev)
			answers++
			if ev.Kind == event.KindUndo && err == nil {
				undone++
			}
		})
	})
	t.Logf("%d events after it was left, %d undone, %d over where it was left", answers, undone, over)
	if sessiontest.Long() {
		require.Positive(t, over)
		require.Greater(t, undone, over)
	}
}

// TestMain has fewer walks made than rapid makes, and with -long more;
// -rapid.checks says otherwise.
func TestMain(m *testing.M) {
	sessiontest.Checks(40, 20, 2000)
	os.Exit(m.Run())
}
