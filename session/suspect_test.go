package session_test

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"spotward/session"
	"spotward/session/event"
	"spotward/session/scope"
)

// A laser that stood still lately is not turned once more; one whose kit is suspected is.
func TestASuspectedKitIsTurnedOnceMore(t *testing.T) {
	began := time.Date(2026, 1, 1, 0, 0, 0, 0, time.UTC)
	for suspect, want := range map[string]session.StepID{"": "p", "kit": session.StepCircle} {
		sc := scope.Builtin()
		knew := event.Known{Circle: &event.KnownCircle{At: began.AddDate(0, 0, -3)}, Suspect: suspect}
		s, err := session.Start(event.Event{ID: "20260101T000000Z-0001", Scope: &sc, Kit: "club laser", Knew: &knew}, nil)
		require.NoError(t, err)
		p := player{t, s, nil}.line("routine", "none")
		assert.Equal(t, want, p.State().Ask().Step, "suspected: %q", suspect)
	}
}
