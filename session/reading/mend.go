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
			} else if w := lex.Inflected(t.Raw); w != "" {
				out[i].Raw = w
			}
		} else if t.Shape == lex.ShapeWord && len(t.Raw) == 4 && !knownToken(t, c) {
			out[i].Raw = cmp.Or(lex.Swapped(t.Raw), t.Raw)
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
		if lex.OneSlip(w, m) {
			if found != "" {
				return ""
			}
			found = m
		}
	}
	return found
}
