package mirrors

import (
	"math"

	"spotward/optics"
	"spotward/optics/adviser"
	"spotward/session/event"
	"spotward/session/scope"
)

// Ways the labels can stand.
const (
	LabelsAsAsked  = "as_asked"
	LabelsReversed = "reversed"
)

// lettered returns the cell of mirror m with its letters where they were seen.
// With one letter alone they are taken to run clockwise; two tell.
func (s Work) lettered(m optics.Mirror, letters map[string]scope.Clock) optics.Cell {
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

// otherWay is how unlikely it must be that letters run as told for them to be said
// to run the other way.
const otherWay = 0.05

// LettersReversed reports that the screws of mirror m have shown that its letters
// run the other way than was told.
func (s Work) LettersReversed(m optics.Mirror) bool {
	return s.TurnedHere(m) && s.Tel.Cell(m).PlacesKnown != optics.Unknown && s.Tracker(m).HandCertain() <= otherWay
}

// Labels returns how the letters of each mirror stand, as far as that was asked;
// nil where it was not.
func (s Work) Labels() map[optics.Mirror]string {
	var out map[optics.Mirror]string
	for _, m := range []optics.Mirror{optics.Secondary, optics.Primary} {
		if !s.Labelled(m) {
			continue
		}
		if out == nil {
			out = map[optics.Mirror]string{}
		}
		out[m] = s.Of(m).labels
		if s.LettersReversed(m) { // the screws themselves have told more than the words
			switch out[m] {
			case LabelsAsAsked:
				out[m] = LabelsReversed
			case LabelsReversed:
				out[m] = LabelsAsAsked
			}
		}
	}
	return out
}

func (s Work) Labelled(m optics.Mirror) bool { return s.Of(m).labels != "" }

// Label takes what is known of where the letters stand into a new belief about
// that mirror's screws.
func (s *Work) Label(m optics.Mirror, ev event.Event) {
	how := ev.Choice
	s.Of(m).labels = how
	cell := s.Tel.Cell(m)
	switch how {
	case LabelsAsAsked:
		cell.PlacesKnown, cell.FirstDeg, cell.LabelsClockwise = optics.Guessed, 0, true
	case LabelsReversed:
		cell.PlacesKnown, cell.FirstDeg, cell.LabelsClockwise = optics.Guessed, 0, false
	default:
		cell.PlacesKnown = optics.Unknown
		if len(ev.Letters) > 0 {
			cell = s.lettered(m, ev.Letters)
		}
	}
	s.setCell(m, cell)
	if s.Of(m).Learnt != nil {
		return // the screws themselves have told more than the letters can
	}
	spot := s.Tracker(m)
	fresh := adviser.NewTracker(s.Tel, m, nil)
	if spot.Seen() {
		fresh, _ = fresh.Look(spot.Spot())
	}
	s.SetTracker(m, fresh)
}
