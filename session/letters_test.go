package session_test

import (
	"fmt"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"spotward/optics"
	"spotward/session"
	"spotward/session/scope"
)

// unlettered is the built-in scope without a word on where its letters stand.
func unlettered(focuser scope.Clock) scope.Scope {
	s := scope.Builtin()
	s.FocuserAt = focuser
	s.Secondary.FirstAt, s.Primary.FirstAt = "", ""
	s.Secondary.LabelsRun, s.Primary.LabelsRun = "", ""
	return s
}

func TestLettersThatAreThereAlready(t *testing.T) {
	rapid.Check(t, func(r *rapid.T) {
		focuser := scope.ClockAt(30 * float64(rapid.IntRange(1, 12).Draw(r, "focuser")))
		p := play(t, unlettered(focuser)).line("routine", "none", "still", "4 12").at(session.StageLabels, "secondary")
		tel := p.State().Tel
		first, clockwise := float64(rapid.IntRange(1, 12).Draw(r, "A")), rapid.Bool().Draw(r, "clockwise")
		way := 1.0
		if !clockwise {
			way = -1
		}
		second := math.Mod(first+way*4+12, 12)
		if second == 0 {
			second = 12
		}
		p.line(fmt.Sprintf("A %.0f, b at %.0f:00", first, second)).at(session.StageLabels, "primary")
		got := p.State().Tel
		assert.Equal(r, clockwise, got.Secondary.LabelsClockwise)
		assert.Equal(r, optics.Guessed, got.Secondary.PlacesKnown)
		off := got.ScrewDial(optics.Secondary, 0).Hour() - first
		assert.InDelta(r, 0, math.Remainder(off, 12), 1e-6, "A stands where it was seen")
		off = got.ScrewDial(optics.Secondary, 1).Hour() - second
		assert.InDelta(r, 0, math.Remainder(off, 12), 1e-6, "and so does B")
		assert.Equal(r, tel.Primary, got.Primary, "the other mirror's letters are another question")
	})
}

func TestOneLetterIsTakenToRunClockwise(t *testing.T) {
	p := play(t, unlettered("2:00")).line("routine", "none", "still", "4 12", "as asked").at(session.StageLabels, "primary")
	p.refuses("A", "say where each letter stands").refuses("A two", "clock position").refuses("A 2 D 4", "say where each letter")
	p.line("C 3")
	cell := p.State().Tel.Primary
	assert.True(t, cell.LabelsClockwise)
	// From behind the focuser at 2:00 is seen at 10:00, so C at 3:00 is five hours
	// clockwise from it, and A, a third round from C, nine.
	assert.InDelta(t, 270, cell.ScrewDeg(0), 1e-9)
	require.Equal(t, session.StageSecondary, p.State().Stage().ID)
}
