package reading

import (
	"cmp"
	"maps"
	"slices"
	"spotward/session/lex"
	"strings"
	"sync"
)

// mended writes a word that is not known but is one letter off a word of the
// instrument as that word.
func mended(toks []lex.Token, c Context) []lex.Token {
	out := slices.Clone(toks)
	for i, t := range out {
		if t.Shape == lex.ShapeWord && len(t.Raw) >= 5 && !knownToken(t, c) {
			if w := nearest(t.Raw); w != "" {
				out[i].Raw = w
			} else if w := inflected(t.Raw); w != "" {
				out[i].Raw = w
			}
		} else if t.Shape == lex.ShapeWord && len(t.Raw) == 4 && !knownToken(t, c) {
			out[i].Raw = cmp.Or(swapped(t.Raw), t.Raw)
		}
	}
	return out
}

// knownToken reports whether a word has a meaning, or is known to have none.
func knownToken(t lex.Token, c Context) bool {
	if t.Shape != lex.ShapeWord || lex.Classes[t.Raw] != "" || lex.Fillers[t.Raw] || lex.PlaceFillers[t.Raw] || lex.IsUnit(t) || isDirection(t) || knownWord(t.Raw) {
		return true
	}
	_, number := lex.Spelled(t.Raw)
	_, part := lex.PartWord(t)
	return number || part || ruleWords()[t.Raw] || t.Is("-", "o", "oclock", "h", "degrees", "deg", "couple", "between", "half", "st", "nd", "rd", "th") || labelled(t, c) != "" ||
		t.Is("r", "l", "u", "d") || senseWord(t) != 0 || compass[t.Raw] != ""
}

// ruleWords are the words that a rule asks for or passes over by themselves.
var ruleWords = sync.OnceValue(func() map[string]bool {
	all := lex.WordSet(madeWords)
	for _, r := range stateRules {
		maps.Copy(all, r.may)
	}
	for _, r := range screwRules {
		maps.Copy(all, r.may)
	}
	for _, r := range troubles {
		maps.Copy(all, r.may)
	}
	for _, set := range []map[string]bool{turnFillers, driven, backed, inward, outward, refWords, faceWords()} {
		maps.Copy(all, set)
	}
	return all
})

func faceWords() map[string]bool {
	all := map[string]bool{}
	for w := range faceNames {
		all[w] = true
	}
	return all
}

// labelled returns the label of the screw in hand that a token is, or "".
func labelled(t lex.Token, c Context) string {
	for _, l := range c.cell().Labels {
		if t.Is(strings.ToLower(l)) {
			return l
		}
	}
	return ""
}

// mendable are the words that a slip of the fingers is mended to: none of them
// turns another into its opposite.
var mendable = strings.Fields("oclock centre center middle inside outside right lower upper bottom mirror around quarter secondary primary spot target " +
	"rings millimetres inches tightened loosened eased turned stuck routine dropped carried")

// nearest returns the mendable word that is one slip from w, or "".
func nearest(w string) string {
	found := ""
	for _, m := range mendable {
		if oneSlip(w, m) {
			if found != "" {
				return ""
			}
			found = m
		}
	}
	return found
}

// notMended are the classes whose words no slip or ending makes: each turns a line
// round.
var notMended = lex.WordSet("not cant hasnt nothing nearly other backwards instead no yes half")

// oneClass returns a word of the one class of which words fit, or "".
func oneClass(fits func(string) bool) string {
	found := ""
	for w, class := range lex.Classes {
		switch {
		case notMended[string(class)] || !fits(w):
		case found != "" && lex.Classes[found] != class:
			return ""
		case found == "" || w < found:
			found = w
		}
	}
	return found
}

// inflected returns the word that w is another form of, or a slip from: budging,
// vanishd.
func inflected(w string) string {
	if s := stem(w); len(s) >= 4 {
		if found := oneClass(func(m string) bool { return stem(m) == s }); found != "" {
			return found
		}
	}
	return oneClass(func(m string) bool { return len(m) >= 5 && oneSlip(w, m) })
}

// swapped returns the word of four letters of which w has two changed round.
func swapped(w string) string {
	return oneClass(func(m string) bool { return len(m) == len(w) && oneSlip(w, m) && sameLetters(w, m) })
}

func sameLetters(a, b string) bool {
	x, y := []byte(a), []byte(b)
	slices.Sort(x)
	slices.Sort(y)
	return string(x) == string(y)
}

// oneSlip reports whether a and b differ by one letter left out, added, mistyped
// or changed with its neighbour.
func oneSlip(a, b string) bool {
	if len(a) > len(b) {
		a, b = b, a
	}
	if len(b)-len(a) > 1 || a == b {
		return false
	}
	i := 0
	for i < len(a) && a[i] == b[i] {
		i++
	}
	if len(a) < len(b) {
		return a[i:] == b[i+1:]
	}
	if a[i+1:] == b[i+1:] {
		return true
	}
	return i+1 < len(a) && a[i] == b[i+1] && a[i+1] == b[i] && a[i+2:] == b[i+2:]
}
