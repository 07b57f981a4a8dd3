package history_test

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"spotward/session"
	"spotward/session/event"
	"spotward/session/history"
	"spotward/session/scope"
)

// A kit stood still in its holder, and that is known; but not once the spot stood
// elsewhere than it was left, with that kit, and nobody turned it since.
func TestAJumpOfTheSpotHasTheLaserTurnedAgain(t *testing.T) {
	circle := 0.0
	at := func(right float64) session.Moment {
		return session.Moment{P: &session.Mark{Saw: event.SawPlace, Right: right, Sigma: 0.6}}
	}
	record := func(foundAt float64, kit string, circle *float64) session.Record {
		return session.Record{Scope: "Heron", Kit: kit, Outcome: session.OutcomeAligned, Found: at(foundAt), Left: at(1), CircleMM: circle}
	}
	first := record(20, "Red box", &circle)
	for _, tt := range []struct {
		name  string
		then  []session.Record
		known bool
	}{
		{"nothing since", nil, true},
		{"found as it was left", []session.Record{record(1.5, "Red box", nil)}, true},
		{"found elsewhere", []session.Record{record(9, "Red box", nil)}, false},
		{"and turned then", []session.Record{record(9, "Red box", &circle)}, true},
		{"found elsewhere with another kit", []session.Record{record(9, "Blue box", nil)}, true},
	} {
		sc := scope.Scope{Name: "heron", Kit: "Red box"}
		k := history.Stock{Records: append([]session.Record{first}, tt.then...)}.Knew(sc)
		assert.Equal(t, tt.known, k.Circle != nil, tt.name)
	}
}
