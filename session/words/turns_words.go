package words

import (
	"strings"

	"spotward/optics"
)

// TurnedWords says turns in few words, in their order: "secondary: C ease 3/16,
// B tighten 3/16". Those that are alike and follow each other are said
// together.
func TurnedWords(turns []optics.Turn) string {
	var b strings.Builder
	for i := 0; i < len(turns); {
		t := turns[i]
		n := i + 1
		for n < len(turns) && alikeTurns(t, turns[n]) {
			n++
		}
		switch {
		case i == 0:
			b.WriteString(string(t.Mirror) + ": ")
		case t.Mirror != turns[i-1].Mirror:
			b.WriteString("; " + string(t.Mirror) + ": ")
		default:
			b.WriteString(", ")
		}
		if t.Lock != "" {
			b.WriteString(map[bool]string{true: "lock ", false: "locks "}[n == i+1])
		}
		for j := i; j < n; j++ {
			b.WriteString(turns[j].Screw + turns[j].Lock + " ")
		}
		b.WriteString(SenseWord(t.Turns) + " " + TurnsText(t.Turns))
		i = n
	}
	return b.String()
}

// MovesWords says turns one after the other, each in full: "B 1/8, tighten
// (clockwise), then C …".
func MovesWords(turns []optics.Turn) string {
	words := make([]string, len(turns))
	for i, t := range turns {
		words[i] = MoveWords(t)
	}
	if len(words) == 0 {
		return "nothing"
	}
	return strings.Join(words, ", then ")
}

func alikeTurns(a, b optics.Turn) bool {
	return a.Mirror == b.Mirror && (a.Lock == "") == (b.Lock == "") && a.Turns == b.Turns
}
