package mirrors

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"spotward/optics"
	"spotward/optics/adviser"
	"spotward/optics/virtual"
	"spotward/session/event"
)

// A limit of net travel is asked about where it is passed, and again at each
// further half of it, not at every turn beyond it.
func TestALimitIsAskedAboutWhereItIsPassed(t *testing.T) {
	for _, tt := range []struct {
		net   float64
		times int
	}{{0, 0}, {0.5, 0}, {0.5625, 1}, {-0.5625, 1}, {0.7, 1}, {0.75, 2}, {-1, 3}} {
		assert.Equal(t, tt.times, limitsPassed(tt.net, 0.5), "%v", tt.net)
	}
}

// In brief it fits the smallest screen's row.
func TestALimitIsAskedInOneRow(t *testing.T) {
	for _, m := range []optics.Mirror{optics.Primary, optics.Secondary} {
		s := Work{Tel: virtual.Builtin()}
		ask, brief := s.limitAsk(s.Tracker(m), []adviser.Move{{Mirror: m, Screw: 0, Turns: 1.5}}, []event.ToldMove{{Turn: optics.Turn{Mirror: m, Screw: "A", Turns: 1.5}}})
		assert.NotEmpty(t, ask, m)
		assert.LessOrEqual(t, len(brief), 56, "%s: %s", m, brief)
	}
}
