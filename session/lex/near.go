package lex

import (
	"slices"
	"strings"
)

// notMended are the classes whose words no slip or ending makes: each turns a line
// round.
var notMended = WordSet("not cant hasnt nothing nearly other backwards instead no yes half")

// oneClass returns a word of the one class of which words fit, or "".
func oneClass(fits func(string) bool) string {
	found := ""
	for w, class := range Classes {
		switch {
		case notMended[string(class)] || !fits(w):
		case found != "" && Classes[found] != class:
			return ""
		case found == "" || w < found:
			found = w
		}
	}
	return found
}

// Inflected returns the word that w is another form of, or a slip from: budging,
// vanishd.
func Inflected(w string) string {
	if s := Stem(w); len(s) >= 4 {
		if found := oneClass(func(m string) bool { return Stem(m) == s }); found != "" {
			return found
		}
	}
	return oneClass(func(m string) bool { return len(m) >= 5 && OneSlip(w, m) })
}

// Swapped returns the word of four letters of which w has two changed round.
func Swapped(w string) string {
	return oneClass(func(m string) bool { return len(m) == len(w) && OneSlip(w, m) && sameLetters(w, m) })
}

func sameLetters(a, b string) bool {
	x, y := []byte(a), []byte(b)
	slices.Sort(x)
	slices.Sort(y)
	return string(x) == string(y)
}

// OneSlip reports whether a and b differ by one letter left out, added, mistyped
// or changed with its neighbour.
func OneSlip(a, b string) bool {
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

// Stem returns a word without its ending: knocked and knocks are knock.
func Stem(w string) string {
	for _, ending := range []string{"ing", "ed", "es", "s"} {
		s, cut := strings.CutSuffix(w, ending)
		if !cut || len(s) < 4 {
			continue
		}
		if n := len(s); s[n-1] == s[n-2] && s[n-1] != 's' {
			return s[:n-1]
		}
		return s
	}
	return w
}
