package mirrors_test

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"spotward/session/event"
	"spotward/session/mirrors"
	"spotward/session/scope"
)

func TestWhetherTheSpotCanBeWatchedIsAskedWhereItCanBe(t *testing.T) {
	for _, tt := range []struct {
		name  string
		known event.Manner
		with  func(*mirrors.Work)
		asked bool
	}{
		{"a new scope", event.AskManner, func(*mirrors.Work) {}, true},
		{"a script", "", func(*mirrors.Work) {}, false},
		{"known of it", event.ByWatching, func(*mirrors.Work) {}, false},
		{"a hand fills the view", event.AskManner, func(w *mirrors.Work) { w.Tel.ApertureMM = 114 }, false},
		{"too far from the screws", event.AskManner, func(w *mirrors.Work) { w.Tel.FromPrimaryMM = 1700 }, false},
		{"not a laser to look at", event.AskManner, func(w *mirrors.Work) { w.Laser.Class = "3R" }, false},
		{"said already", event.AskManner, func(w *mirrors.Work) { w.StopBy(event.ByAmount) }, false},
	} {
		w := mirrors.New(scope.Builtin(), event.Known{}, nil)
		w.Stops = tt.known
		tt.with(&w)
		assert.Equal(t, tt.asked, w.MannerToAsk(), tt.name)
	}
}

// What is changed later is what is known the next evening; what was never asked
// is not.
func TestHowOneStopsIsKept(t *testing.T) {
	n := mirrors.Manner{Stops: event.AskManner}
	assert.Empty(t, n.Kept())
	n.StopBy(event.ByWatching)
	assert.True(t, n.Watching)
	assert.Equal(t, event.ByWatching, n.Kept())
	n.StopBy(event.ByAmount)
	assert.False(t, n.Watching)
	assert.Equal(t, event.ByAmount, n.Kept())
	n = mirrors.Manner{}
	n.StopBy(event.ByWatching)
	assert.True(t, n.Watching)
	assert.Empty(t, n.Kept(), "a script's")
}
