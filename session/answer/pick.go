package answer

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"spotward/session/lex"
	"spotward/session/words"
)

// option is one answer to a choice and what people say for it.
type option struct {
	words.Option
	Said     []string // alternatives; all words of one must be there
	Whole    bool     // its beginning is not enough: it cannot be made good, or begins as a "no" does
	Harmless bool     // it changes little of what follows: a strange word or two beside it may be passed over
}

// pick returns which answer a line names: by its number, its id, its words, the
// beginning of one that no other shares, or by what people say for it; nothing is
// the first. It is false where a line names none, or more than one.
func pick(answers []option, line string) (n int, ok bool) {
	line = strings.ToLower(strings.TrimSpace(line))
	if len(answers) == 0 {
		return 0, false
	}
	if line == "" {
		return 0, true
	}
	word := strings.Trim(line, ".,;:!# ")
	id := strings.ReplaceAll(word, " ", "_")
	var hit []int
	for i, a := range answers {
		if strings.EqualFold(a.ID, id) || strings.EqualFold(a.Words, word) {
			return i, true
		}
		if word != "" && strings.HasPrefix(strings.ToLower(a.ID), id) {
			hit = append(hit, i)
		}
	}
	if v, err := strconv.Atoi(word); err == nil && v >= 1 && v <= len(answers) {
		return v - 1, true
	}
	if len(hit) == 1 && !answers[hit[0]].Whole {
		return hit[0], true
	}
	return spoken(answers, word)
}

// alternatives returns what people say for an answer, its id among it.
func (a option) alternatives() []string {
	return append([]string{strings.ReplaceAll(strings.ToLower(a.ID), "_", " ")}, a.Said...)
}

// spoken returns the one answer that the words of a line stand for. A word that is
// neither its own nor a filler, or a "not" that it does not expect, leaves it open.
func spoken(answers []option, line string) (int, bool) {
	toks, err := lex.Scan(line)
	toks = lex.Shortened(toks)
	if err != nil || len(toks) == 0 || strings.Contains(line, "?") || lex.Asks(toks) {
		return 0, false
	}
	mendAnswer(answers, toks)
	numbered, rest := numberOf(toks, len(answers))
	hits, used := saidOf(answers, rest)
	strange := 0
	for _, t := range rest {
		switch {
		case negates(t) && !used[t.Raw] && !expectsNot(used):
			return 0, false
		case !negates(t) && !used[t.Raw] && !lex.ChoiceFillers[t.Raw] && !lex.Fillers[t.Raw] && !t.IsNumber():
			strange++
		}
	}
	if len(hits) > 1 {
		if i, ok := byOwnWords(answers, rest); ok {
			hits = []int{i}
		}
	}
	switch {
	case strange > 0 && (strange > 2 || len(hits) != 1 || !answers[hits[0]].Harmless):
		return 0, false
	case len(hits) > 1, len(hits) == 0 && numbered == 0:
		return 0, false
	case numbered == 0:
		return hits[0], true
	case len(hits) == 1 && hits[0] != numbered-1:
		return 0, false
	}
	return numbered - 1, true
}

// saidOf returns the answers whose words are all in a line, and which words those
// are. Where the line says "not", only what expects it counts: "not ready".
func saidOf(answers []option, toks []lex.Token) (hits []int, used map[string]bool) {
	used = map[string]bool{}
	var by [][]string // the most words of one way to say each of the hits
	negated := slices.ContainsFunc(toks, negates)
	for i, a := range answers {
		hit, most := false, []string(nil)
		for _, alt := range a.alternatives() {
			ws := strings.Fields(alt)
			if !containsAll(toks, ws) {
				continue
			}
			if !negated || slices.ContainsFunc(ws, func(w string) bool { return negates(lex.Token{Raw: w}) }) {
				hit = true
				if len(ws) > len(most) {
					most = ws
				}
			}
			for _, w := range ws {
				used[w] = true
			}
		}
		if hit {
			hits, by = append(hits, i), append(by, most)
		}
	}
	for i, ws := range by { // primary and secondary: both, and not the one
		if !slices.ContainsFunc(by, func(other []string) bool {
			return len(other) >= len(ws) && !slices.Equal(other, ws) || !within(other, ws)
		}) {
			return hits[i : i+1], used
		}
	}
	return hits, used
}

// within reports whether all words are among others.
func within(words, others []string) bool {
	return !slices.ContainsFunc(words, func(w string) bool { return !slices.Contains(others, w) })
}

func negates(t lex.Token) bool { return lex.Negative(t) || t.Is("no") }

func expectsNot(used map[string]bool) bool {
	for w := range used {
		if negates(lex.Token{Raw: w}) {
			return true
		}
	}
	return false
}

// containsAll reports whether all words are among the tokens; "not" stands for
// whatever says no.
func containsAll(toks []lex.Token, ws []string) bool {
	for _, w := range ws {
		if !slices.ContainsFunc(toks, func(t lex.Token) bool {
			return t.Raw == w || w == "cant" && lex.Classes[t.Raw] == "cant" || w == "not" && (lex.Classes[t.Raw] == "not" || lex.Classes[t.Raw] == "hasnt" || t.Is("cant", "wont"))
		}) {
			return false
		}
	}
	return len(ws) > 0
}

// byOwnWords returns the one answer whose own words hold all that was said.
func byOwnWords(answers []option, toks []lex.Token) (int, bool) {
	found, n := 0, 0
	for i, a := range answers {
		own := lex.WordSet(strings.ToLower(strings.NewReplacer(",", " ", ":", " ").Replace(a.Words)))
		if !slices.ContainsFunc(toks, func(t lex.Token) bool { return !own[t.Raw] && !lex.Fillers[t.Raw] }) {
			found, n = i, n+1
		}
	}
	return found, n == 1
}

// mendAnswer writes a word that is one slip from one of the answers' as that word.
func mendAnswer(answers []option, toks []lex.Token) {
	own := map[string]bool{}
	for _, a := range answers {
		for _, alt := range a.alternatives() {
			for _, w := range strings.Fields(alt) {
				own[w] = true
			}
		}
	}
	for i, t := range toks {
		if class := lex.Classes[t.Raw]; class == "move" && own["move"] && !own[t.Raw] {
			toks[i].Raw = "move"
		}
		for w := range own {
			if s := lex.Stem(w); !own[t.Raw] && len(s) >= 4 && s == lex.Stem(t.Raw) {
				toks[i].Raw = w
			}
		}
		if t = toks[i]; t.IsNumber() || len(t.Raw) < 5 || own[t.Raw] || lex.ChoiceFillers[t.Raw] || lex.Classes[t.Raw] != "" {
			continue
		}
		var near []string
		for w := range own {
			if len(w) >= 4 && lex.OneSlip(t.Raw, w) {
				near = append(near, w)
			}
		}
		if len(near) == 1 {
			toks[i].Raw = near[0]
		}
	}
}

// ordinals name an answer by its place.
var ordinals = map[string]int{"first": 1, "second": 2, "third": 3, "fourth": 4, "fifth": 5}

// numberOf takes the number of an answer off a line: "3, came in the car", "the
// second one".
func numberOf(toks []lex.Token, n int) (numbered int, rest []lex.Token) {
	for i, t := range toks {
		before := lex.TokenAt(toks, i-1)
		alone := onlyFillers(toks[i+1:]) && i == 0 || i == 0 && lex.TokenAt(toks, 1).Part || before.Is("number", "option", "no", "answer", "choice")
		v := 0
		switch {
		case t.Shape == lex.ShapeWhole && t.Sign == 0 && t.Value >= 1 && t.Value <= float64(n) && alone:
			v = int(t.Value)
		case ordinals[t.Raw] > 0 && ordinals[t.Raw] <= n && !lex.TokenAt(toks, i+1).Is("time"):
			v = ordinals[t.Raw]
		}
		if v > 0 {
			from := i
			if before.Is("no") {
				from--
			}
			return v, append(slices.Clone(toks[:from]), toks[i+1:]...)
		}
	}
	return 0, toks
}

func onlyFillers(toks []lex.Token) bool {
	return !slices.ContainsFunc(toks, func(t lex.Token) bool { return !lex.ChoiceFillers[t.Raw] && !lex.Fillers[t.Raw] })
}

// noAnswer says how to answer a choice: each answer by a word, its number, and what
// else is taken there.
func noAnswer(options []words.Option, line string, also ...string) error {
	err := &lex.Error{Part: strings.TrimSpace(line), Why: "which one?"}
	for _, o := range options {
		err.Examples = append(err.Examples, strings.ReplaceAll(o.ID, "_", " "))
	}
	err.Examples = append(append(err.Examples, also...), fmt.Sprintf("a number from 1 to %d", len(options)))
	return err
}

// commandLetters are the words of one letter that the faces and the line itself
// take everywhere.
var commandLetters = map[string]string{"b": "back", "h": "help", "q": "quit", "t": "theme", "v": "view", "w": "why"}

// twoMeanings asks what a letter means that is a command and begins an answer; it
// is nil for every other word.
func twoMeanings(options []words.Option, word string) error {
	word = strings.ToLower(strings.TrimSpace(word))
	command, ok := commandLetters[word]
	if !ok {
		return nil
	}
	i := slices.IndexFunc(options, func(o words.Option) bool { return strings.HasPrefix(strings.ToLower(o.ID), word) })
	if i < 0 {
		return nil
	}
	return fmt.Errorf("%q: %s, or %s? say %d or %s", word, strings.ReplaceAll(options[i].ID, "_", " "), command, i+1, command)
}
