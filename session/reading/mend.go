package reading

import (
	"slices"
	"strings"
)

// mended writes a word that is not known but is one letter off a word of the
// instrument as that word.
func mended(toks []token, c Context) []token {
	out := slices.Clone(toks)
	for i, t := range out {
		if t.shape == shapeWord && len(t.raw) >= 5 && !knownToken(t, c) {
			if w := nearest(t.raw); w != "" {
				out[i].raw = w
			}
		}
	}
	return out
}

// knownToken reports whether a word has a meaning, or is known to have none.
func knownToken(t token, c Context) bool {
	if t.shape != shapeWord || classes[t.raw] != "" || fillers[t.raw] || placeFillers[t.raw] || isUnit(t) || isDirection(t) || knownWord(t.raw) {
		return true
	}
	_, number := spelled(t.raw)
	_, part := partWord(t)
	return number || part || t.is("-", "o", "oclock", "h", "degrees", "deg", "couple", "between", "half", "st", "nd", "rd", "th") || labelled(t, c) != "" ||
		t.is("r", "l", "u", "d") || senseWord(t) != 0 || compass[t.raw] != ""
}

// labelled returns the label of the screw in hand that a token is, or "".
func labelled(t token, c Context) string {
	for _, l := range c.cell().Labels {
		if t.is(strings.ToLower(l)) {
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
