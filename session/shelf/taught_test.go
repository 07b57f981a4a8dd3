package shelf_test

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"spotward/optics"
	"spotward/optics/adviser"
	"spotward/session"
	"spotward/session/event"
	"spotward/session/scope"
	"spotward/session/sessiontest"
)

// What was learnt is of the screws as they are: measuring one changes nothing
// of it, other screws do.
func TestTaughtAndTheScopesFile(t *testing.T) {
	l := sessiontest.OpenShelf(t)
	sc := scope.Scope{Format: 1, Name: "Wren", Aperture: scope.MM(200), FocalLength: scope.MM(1200)}
	sc.Primary.Circle = scope.MM(75)
	require.NoError(t, l.SaveScope(sc))
	began := time.Date(2026, 3, 1, 18, 0, 0, 0, time.UTC)
	j, err := l.CreateJournal(sessiontest.ID, "", sessiontest.Ticking())
	require.NoError(t, err)
	_, err = session.Start(event.Event{ID: sessiontest.ID, Scope: &sc}, j)
	require.NoError(t, err)
	require.NoError(t, j.Close())
	r := session.Record{V: 1, ID: sessiontest.ID, Scope: sc.Name, Began: began, Ended: began.Add(time.Hour), Outcome: session.OutcomeAligned}
	r.Learnt = map[optics.Mirror]*event.Taught{}
	for _, m := range []optics.Mirror{optics.Primary, optics.Secondary} {
		learnt := adviser.NewTracker(sc.Telescope(), m, nil).Learnt()
		r.Learnt[m] = &learnt
	}
	keepRecord(t, l, r)
	records, errs := l.Records()
	require.Empty(t, errs)
	for _, c := range []struct {
		name               string
		change             func(*scope.Scope)
		primary, secondary bool
	}{
		{"nothing", func(*scope.Scope) {}, true, true},
		{"an estimate marked", func(s *scope.Scope) {
			s.Primary.Circle, s.Estimates = scope.MM(60), []string{"primary.circle_radius"}
		}, true, true},
		{"an estimate measured", func(s *scope.Scope) { s.Secondary.Circle, s.Primary.Thread = scope.MM(12), "M6" }, true, true},
		{"the tube measured", func(s *scope.Scope) { s.Secondary.FromPrimary = scope.MM(990) }, true, true},
		{"other screws", func(s *scope.Scope) { s.Primary.Circle = scope.MM(60) }, false, true},
		{"four screws", func(s *scope.Scope) { s.Secondary.Screws = 4 }, true, false},
		{"other letters", func(s *scope.Scope) { s.Primary.Labels = []string{"P", "Q", "R"} }, false, true},
	} {
		now := sc
		c.change(&now)
		taught := l.Taught(now, records, began)
		assert.Equal(t, c.primary, taught[optics.Primary] != nil, c.name)
		assert.Equal(t, c.secondary, taught[optics.Secondary] != nil, c.name)
	}
}
