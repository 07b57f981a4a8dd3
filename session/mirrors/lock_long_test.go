package mirrors

import (
	"testing"

	"github.com/stretchr/testify/require"

	"spotward/optics"
	"spotward/optics/adviser"
	"spotward/session/event"
)

// A long move needs more room than a quarter: its lock is eased by that too, before
// the screw drives the mirror onto it.
func TestALongMoveHasItsRoom(t *testing.T) {
	tel := optics.Telescope{ApertureMM: 200, FocalLengthMM: 1200, FromPrimaryMM: 950, HoleFromAxisMM: 250,
		Primary: optics.Cell{Screws: 3, CircleMM: 80, LeadMM: 0.8, Labels: []string{"A", "B", "C"}, Locks: 3, LabelsClockwise: true}}
	s := Work{Tel: tel}
	s.Primary.Tracker = adviser.NewTracker(tel, optics.Primary, nil)
	var told event.Told
	s.easedFirst(&told, adviser.Advice{Moves: []adviser.Move{{Mirror: optics.Primary, Screw: 1, Turns: 0.5}}})
	eased := map[string]float64{}
	for _, m := range told.Moves {
		eased[m.Lock] -= m.Turns
	}
	require.Equal(t, map[string]float64{"A": 0.25, "B": 0.5, "C": 0.25}, eased)
	rest, all := s.EasesLocks(told)
	require.True(t, all, "the quarter each comes first")
	require.Equal(t, optics.Turn{Mirror: optics.Primary, Lock: "B", Turns: -0.25}, rest[0].Turn)
	require.Zero(t, s.Slack(), "telling eases nothing")
}
