package session

import (
	"errors"
	"fmt"
	"math"
	"slices"
	"strings"

	"spotward/optics"
	"spotward/session/event"
	"spotward/session/reading"
	"spotward/session/scope"
)

var errLetters = errors.New("say where each letter stands that you can make out, as in: A 2, or A 2 B 6")

// lettersLine understands where letters stand that are on a mirror's screws
// already: "A 2", "A 2 B 6", clock positions as one faces the heads, 12 straight
// up. It reports false for a line that names no letter.
func (s State) lettersLine(ask Ask, text string) (Typed, bool, error) {
	mirror, asked := ask.Letters()
	if !asked {
		return Typed{}, false, nil
	}
	words := strings.FieldsFunc(text, func(r rune) bool { return r == ' ' || r == ',' || r == '=' })
	words = slices.DeleteFunc(words, func(w string) bool { return strings.EqualFold(w, "at") })
	labels := s.Tel.Cell(mirror).Labels
	if len(words) == 0 || labelIndex(labels, words[0]) < 0 {
		return Typed{}, false, nil
	}
	letters := map[string]scope.Clock{}
	var echo []string
	for ; len(words) > 0; words = words[2:] {
		i := labelIndex(labels, words[0])
		if i < 0 || len(words) < 2 {
			return Typed{}, true, fmt.Errorf("%q: %w", reading.Shorten(words[0], 24), errLetters)
		}
		at, err := scope.ParseClock(words[1])
		if err != nil {
			return Typed{}, true, fmt.Errorf("%q: %w; %w", reading.Shorten(words[1], 24), err, errLetters)
		}
		letters[labels[i]] = at
		echo = append(echo, labels[i]+" at "+string(at))
	}
	ev := event.Event{Kind: event.KindChoice, Choice: answerUnknown, Letters: letters, Text: text}
	return Typed{Events: []event.Event{ev}, Echo: strings.Join(echo, ", ")}, true, nil
}

func labelIndex(labels []string, name string) int {
	return slices.IndexFunc(labels, func(l string) bool { return strings.EqualFold(l, name) })
}

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
