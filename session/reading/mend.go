package reading

import (
	"slices"
	"spotward/session/lex"
	"strings"
)

// mended writes a word that is not known but is one letter off a word of the
// instrument as that word.
func mended(toks []lex.Token, c Context) []lex.Token {
	out := slices.Clone(toks)
	for i, t := range out {
		if t.Shape == lex.ShapeWord && len(t.Raw) >= 5 && !knownToken(t, c) {
			if w := nearest(t.Raw); w != "" {
				out[i].Raw = w
			}
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
	return number || part || t.Is("-", "o", "oclock", "h", "degrees", "deg", "couple", "between", "half", "st", "nd", "rd", "th") || labelled(t, c) != "" ||
		t.Is("r", "l", "u", "d") || senseWord(t) != 0 || compass[t.Raw] != ""
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
