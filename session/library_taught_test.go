package session_test

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"spotward/optics"
	"spotward/session"
)

// What was learnt is of the screws as they are: measuring one changes nothing
// of it, other screws do.
func TestTaughtAndTheScopesFile(t *testing.T) {
	l := openLibrary(t)
	scope := session.Scope{Format: 1, Name: "Wren", Aperture: session.MM(200), FocalLength: session.MM(1200)}
	scope.Primary.Circle = session.MM(75)
	require.NoError(t, l.SaveScope(scope))
	began := time.Date(2026, 3, 1, 18, 0, 0, 0, time.UTC)
	j, err := l.CreateJournal(someID, "", ticking())
	require.NoError(t, err)
	_, err = session.Start(session.Event{ID: someID, Scope: &scope}, j)
	require.NoError(t, err)
	require.NoError(t, j.Close())
	r := session.Record{V: 1, ID: someID, Scope: scope.Name, Began: began, Ended: began.Add(time.Hour), Outcome: session.OutcomeAligned}
	r.Learnt = map[optics.Mirror]*session.Taught{}
	for _, m := range []optics.Mirror{optics.Primary, optics.Secondary} {
		learnt := optics.NewTracker(scope.Telescope(), m, nil).Learnt()
		r.Learnt[m] = &learnt
	}
	keepRecord(t, l, r)
	for _, c := range []struct {
		name               string
		change             func(*session.Scope)
		primary, secondary bool
	}{
		{"nothing", func(*session.Scope) {}, true, true},
		{"an estimate marked", func(s *session.Scope) {
			s.Primary.Circle, s.Estimates = session.MM(60), []string{"primary.circle_radius"}
		}, true, true},
		{"an estimate measured", func(s *session.Scope) { s.Secondary.Circle, s.Primary.Thread = session.MM(12), "M6" }, true, true},
		{"the tube measured", func(s *session.Scope) { s.Secondary.FromPrimary = session.MM(990) }, true, true},
		{"other screws", func(s *session.Scope) { s.Primary.Circle = session.MM(60) }, false, true},
		{"four screws", func(s *session.Scope) { s.Secondary.Screws = 4 }, true, false},
		{"other letters", func(s *session.Scope) { s.Primary.Labels = []string{"P", "Q", "R"} }, false, true},
	} {
		now := scope
		c.change(&now)
		taught, err := l.Taught(now, began)
		require.NoError(t, err)
		assert.Equal(t, c.primary, taught[optics.Primary] != nil, c.name)
		assert.Equal(t, c.secondary, taught[optics.Secondary] != nil, c.name)
	}
}
