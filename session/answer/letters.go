package answer

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"spotward/session"
	"spotward/session/event"
	"spotward/session/lex"
	"spotward/session/scope"
)

var errLetters = errors.New("say where each letter stands that you can make out, as in: A 2, or A 2 B 6")

// lettersLine understands where letters stand that are on a mirror's screws
// already: "A 2", "A 2 B 6", clock positions as one faces the heads, 12 straight
// up. It reports false for a line that names no letter.
func lettersLine(s session.State, ask session.Ask, text string) (Typed, bool, error) {
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
			return Typed{}, true, fmt.Errorf("%q: %w", lex.Shorten(words[0], 24), errLetters)
		}
		at, err := scope.ParseClock(words[1])
		if err != nil {
			return Typed{}, true, fmt.Errorf("%q: %w; %w", lex.Shorten(words[1], 24), err, errLetters)
		}
		letters[labels[i]] = at
		echo = append(echo, labels[i]+" at "+string(at))
	}
	ev := event.Event{Kind: event.KindChoice, Choice: session.AnswerUnknown, Letters: letters, Text: text}
	return Typed{Events: []event.Event{ev}, Echo: strings.Join(echo, ", ")}, true, nil
}

func labelIndex(labels []string, name string) int {
	return slices.IndexFunc(labels, func(l string) bool { return strings.EqualFold(l, name) })
}
