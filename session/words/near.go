package words

import (
	"slices"
	"strings"

	"github.com/agnivade/levenshtein"
)

// Near returns those of names that are a slip or two from what was said, or
// begin with it, the nearest first.
func Near(said string, names []string) []string {
	said = strings.ToLower(said)
	off := map[string]int{}
	var out []string
	for _, n := range names {
		name := strings.ToLower(n)
		off[n] = levenshtein.ComputeDistance(said, name)
		most := min(2, len([]rune(said))/2)
		if off[n] <= most || len(said) >= 2 && strings.HasPrefix(name, said) {
			out = append(out, n)
		}
	}
	slices.SortStableFunc(out, func(a, b string) int { return off[a] - off[b] })
	return out
}

// DidYouMean returns ": did you mean Heron?" where something is near, or "".
func DidYouMean(said string, names []string) string {
	near := Near(said, names)
	if len(near) == 0 {
		return ""
	}
	return ": did you mean " + OneLine(near[0]) + "?"
}
