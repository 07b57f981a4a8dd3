package session

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"spotward/session/words"
)

// pickOption returns the answer that a word names: its number, its id, its
// words, or the beginning of one that no other shares; nothing is the first.
func pickOption(options []words.Option, word string) (words.Option, bool) {
	if len(options) == 0 {
		return words.Option{}, false
	}
	if word == "" {
		return options[0], true
	}
	id := strings.ReplaceAll(word, " ", "_")
	var hit []words.Option
	for _, o := range options {
		if strings.EqualFold(o.ID, id) || strings.EqualFold(o.Words, word) {
			return o, true
		}
		if strings.HasPrefix(strings.ToLower(o.ID), id) {
			hit = append(hit, o)
		}
	}
	if n, err := strconv.Atoi(word); err == nil && n >= 1 && n <= len(options) {
		return options[n-1], true
	}
	if len(hit) == 1 && !wholeWord(hit[0].ID) {
		return hit[0], true
	}
	return words.Option{}, false
}

// wholeWord reports whether an answer cannot be made good by another one, or
// begins with what may be a plain "no": its beginning is not enough.
func wholeWord(id string) bool {
	switch id {
	case VerdictNotToday, WhyDropped, ClassOver, ClassNone:
		return true
	}
	return false
}

// commandLetters are the words of one letter that the faces and the line itself
// take everywhere.
var commandLetters = map[string]string{"b": "back", "h": "help", "q": "quit", "t": "theme", "v": "view", "w": "why"}

// twoMeanings asks what a letter means that is a command and begins an answer.
func twoMeanings(options []words.Option, word string) error {
	command, ok := commandLetters[word]
	if !ok {
		return nil
	}
	i := slices.IndexFunc(options, func(o words.Option) bool { return strings.HasPrefix(strings.ToLower(o.ID), word) })
	if i < 0 {
		return nil
	}
	o := options[i]
	return fmt.Errorf("%q: %s, or %s? say %d or %s", word, strings.ReplaceAll(o.ID, "_", " "), command, i+1, command)
}

// Begins reports whether a word of one letter that faces take as a command begins
// an answer here: then the line is asked back and no face takes it.
func (a Ask) Begins(word string) bool {
	return twoMeanings(a.Options, strings.ToLower(strings.TrimSpace(word))) != nil
}
