package session

import (
	"math"

	"spotward/optics"
	"spotward/session/scope"
)

// lettered returns the cell of mirror m with its letters where they were seen.
// With one letter alone they are taken to run clockwise; two tell.
func (s State) lettered(m optics.Mirror, letters map[string]scope.Clock) optics.Cell {
	cell := s.Tel.Cell(m)
	cell.PlacesKnown, cell.LabelsClockwise = optics.Guessed, true
	fit := math.Inf(-1)
	for _, clockwise := range []bool{true, false} {
		try := cell
		try.FirstDeg, try.LabelsClockwise = 0, clockwise
		// The mean of what each letter says of the first one's place; the longer
		// the sum, the better they agree.
		var sum optics.Dial
		for i, label := range cell.Labels {
			if at, ok := letters[label]; ok {
				d := optics.AtHour((at.Deg()-try.ScrewDeg(i))/30, 1)
				sum.Right, sum.Up = sum.Right+d.Right, sum.Up+d.Up
			}
		}
		if agree := sum.Len(); agree > fit+1e-9 {
			fit = agree
			try.FirstDeg = 30 * (sum.Hour() - s.Tel.FocuserDial(optics.ScrewStation(m)).Hour())
			cell = try
		}
	}
	return cell
}
