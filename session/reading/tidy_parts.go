package reading

import (
	"math"
	"strconv"
)

// partWord returns what a word for a part of one is worth.
func partWord(t token) (float64, bool) {
	switch {
	case t.is("half"):
		return 1. / 2, true
	case t.is("third", "thirds"):
		return 1. / 3, true
	case t.is("quarter", "quarters"):
		return 1. / 4, true
	case t.is("fifth", "fifths"):
		return 1. / 5, true
	case t.is("eighth", "eighths"):
		return 1. / 8, true
	}
	return 0, false
}

// isUnit reports whether a distance can be counted in t.
func isUnit(t token) bool {
	return t.is("mm", "cm", "inch", "inches", `"`, "r", "ring", "rings", "millimetre", "millimeter", "millimetres", "millimeters",
		"mil", "mils", "mill", "mills", "centimetre", "centimeter", "centimetres", "centimeters", "ringwidth", "ringwidths", "rw")
}

// andAHalf reads "two and a half", "a ring and a half".
func andAHalf(toks []token) []token {
	var out []token
	for i := 0; i < len(toks); i++ {
		t := toks[i]
		half := func(at int) bool {
			return tokenAt(toks, at).is("and") && tokenAt(toks, at+1).is("a") && tokenAt(toks, at+2).is("half")
		}
		switch {
		case t.plainNumber() && half(i+1):
			out = append(out, numberToken(t.value+0.5, t, "0"))
			i += 3
		case isUnit(t) && half(i+1):
			n := len(out)
			switch {
			case n > 0 && out[n-1].plainNumber():
				out[n-1] = numberToken(out[n-1].value+0.5, out[n-1], "0")
			case n > 0 && out[n-1].is("a", "an"):
				out[n-1] = numberToken(1.5, out[n-1], "0")
			default:
				out = append(out, numberToken(1.5, t, "0"))
			}
			out = append(out, t)
			i += 3
		default:
			out = append(out, t)
		}
	}
	return out
}

// parts reads a part of a unit or of the way to the edge: "half an inch", "a
// quarter inch", "halfway to the edge", "a ring".
func parts(toks []token) []token {
	var out []token
	skip := func(i int, words ...string) int {
		for tokenAt(toks, i).is(words...) {
			i++
		}
		return i
	}
	article := func() {
		if n := len(out); n > 0 && out[n-1].is("a", "an") {
			out = out[:n-1]
		}
	}
	for i := 0; i < len(toks); i++ {
		t := toks[i]
		part, ok := partWord(t)
		if ok && !t.is("half") && len(out) > 0 && out[len(out)-1].plainNumber() {
			part *= out[len(out)-1].value
			if j := skip(i+1, "of", "a", "an", "the", "way"); isUnit(tokenAt(toks, j)) || tokenAt(toks, j-1).is("way") {
				out = out[:len(out)-1]
			} else {
				ok = false
			}
		}
		j := skip(i+1, "of", "a", "an", "the")
		switch {
		case ok && isUnit(tokenAt(toks, j)) && (j > i+1 || t.is("half", "quarter", "quarters", "thirds", "eighths", "fifths") || tokenAt(out, len(out)-1).is("a")):
			article()
			out = append(out, numberToken(part, t, "0"))
			i = j - 1
		case t.is("halfway", "midway"), ok && tokenAt(toks, j).is("way"), t.shape == shapeFraction && tokenAt(toks, j).is("way"):
			if t.shape == shapeFraction || t.is("halfway", "midway") {
				part = t.value
			}
			if t.is("halfway", "midway") {
				part, j = 1./2, i
			}
			article()
			f := token{raw: fractionOf(part), shape: shapeFraction, value: part, part: t.part, gap: t.gap}
			out = append(out, f)
			i = skip(j+1, "to", "the", "edge", "rim", "out", "over", "toward", "towards") - 1
		case t.is("a", "an", "one") && isUnit(tokenAt(toks, i+1)) && !tokenAt(toks, i-1).is("in", "on", "inside", "outside", "out", "of", "touching", "within", "r"):
			out = append(out, numberToken(1, t, "1"))
		default:
			out = append(out, t)
		}
	}
	return out
}

func fractionOf(v float64) string {
	for den := 2; den <= 8; den++ {
		if n := math.Round(v * float64(den)); math.Abs(n/float64(den)-v) < 1e-9 {
			return strconv.Itoa(int(n)) + "/" + strconv.Itoa(den)
		}
	}
	return strconv.FormatFloat(v, 'f', 2, 64)
}
