package lex

import (
	"math"
	"strconv"
)

// PartWord returns what a word for a part of one is worth.
func PartWord(t Token) (float64, bool) {
	switch {
	case t.Is("half"):
		return 1. / 2, true
	case t.Is("third", "thirds"):
		return 1. / 3, true
	case t.Is("quarter", "quarters"):
		return 1. / 4, true
	case t.Is("fifth", "fifths"):
		return 1. / 5, true
	case t.Is("eighth", "eighths"):
		return 1. / 8, true
	}
	return 0, false
}

// IsUnit reports whether a distance can be counted in t.
func IsUnit(t Token) bool {
	return t.Is("mm", "cm", `"`, "r", "ring", "rings", "ringwidth", "ringwidths", "rw") || t.Shape == ShapeWord && unitWords[t.Raw] != ""
}

// andAHalf reads "two and a half", "a ring and a half".
func andAHalf(toks []Token) []Token {
	var out []Token
	for i := 0; i < len(toks); i++ {
		t := toks[i]
		half := func(at int) int {
			switch {
			case TokenAt(toks, at).Is("and") && TokenAt(toks, at+1).Is("a") && TokenAt(toks, at+2).Is("half"):
				return 3
			case TokenAt(toks, at).Is("and") && TokenAt(toks, at+1).Is("half") && !TokenAt(toks, at+2).Is("a", "past", "of"):
				return 2
			}
			return 0
		}
		switch {
		case t.PlainNumber() && half(i+1) > 0:
			out = append(out, numberToken(t.Value+0.5, t, "0"))
			i += half(i + 1)
		case t.Is("ring") && TokenAt(toks, i+1).Is("width") && half(i+2) > 0:
			out = append(out, numberToken(1.5, t, "0"), t)
			i += 1 + half(i+2)
		case IsUnit(t) && half(i+1) > 0:
			n := len(out)
			switch {
			case n > 0 && out[n-1].PlainNumber():
				out[n-1] = numberToken(out[n-1].Value+0.5, out[n-1], "0")
			case n > 0 && out[n-1].Is("a", "an"):
				out[n-1] = numberToken(1.5, out[n-1], "0")
			default:
				out = append(out, numberToken(1.5, t, "0"))
			}
			out = append(out, t)
			i += half(i + 1)
		default:
			out = append(out, t)
		}
	}
	return out
}

// parts reads a part of a unit or of the way to the edge: "half an inch", "a
// quarter inch", "halfway to the edge", "a ring".
func parts(toks []Token) []Token {
	var out []Token
	skip := func(i int, words ...string) int {
		for TokenAt(toks, i).Is(words...) {
			i++
		}
		return i
	}
	article := func() {
		if n := len(out); n > 0 && out[n-1].Is("a", "an") {
			out = out[:n-1]
		}
	}
	for i := 0; i < len(toks); i++ {
		t := toks[i]
		part, ok := PartWord(t)
		if ok && !t.Is("half") && len(out) > 0 && out[len(out)-1].PlainNumber() {
			part *= out[len(out)-1].Value
			if j := skip(i+1, "of", "a", "an", "the", "way"); IsUnit(TokenAt(toks, j)) || TokenAt(toks, j-1).Is("way") || TokenAt(toks, j).Is("out") && t.Is("thirds", "quarters", "fifths") {
				out = out[:len(out)-1]
			} else {
				ok = false
			}
		}
		j := skip(i+1, "of", "a", "an", "the")
		switch {
		case ok && IsUnit(TokenAt(toks, j)) && (j > i+1 || t.Is("half", "quarter", "quarters", "thirds", "eighths", "fifths") || TokenAt(out, len(out)-1).Is("a")):
			article()
			out = append(out, numberToken(part, t, "0"))
			i = j - 1
		case t.Is("halfway", "midway") && TokenAt(toks, i+1).Is("in", "inside", "on", "over"):
			t.Raw = "half"
			out = append(out, t)
		case t.Is("halfway", "midway"), ok && (TokenAt(toks, j).Is("way") || TokenAt(toks, j).Is("out") && t.Is("thirds", "quarters", "fifths")), t.Shape == ShapeFraction && TokenAt(toks, j).Is("way"):
			if t.Shape == ShapeFraction || t.Is("halfway", "midway") {
				part = t.Value
			}
			if t.Is("halfway", "midway") {
				part, j = 1./2, i
			}
			article()
			f := Token{Raw: fractionOf(part), Shape: ShapeFraction, Value: part, Part: t.Part, Gap: t.Gap}
			out = append(out, f)
			i = skip(j+1, "to", "the", "edge", "rim", "out", "over", "toward", "towards") - 1
		case t.Is("full", "whole") && IsUnit(TokenAt(toks, i+1)):
			article()
			out = append(out, numberToken(1, t, "1"))
		case t.Is("a", "an", "one") && IsUnit(TokenAt(toks, i+1)) && !Negative(TokenAt(toks, i-1)) && !TokenAt(toks, i-1).Is("in", "on", "inside", "outside", "out", "of", "touching", "within", "r"):
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

// Shortened writes "can not" as cant, and so on.
func Shortened(toks []Token) []Token {
	short := map[string]string{
		"can": "cant", "could": "couldnt", "will": "wont", "would": "wouldnt", "do": "dont", "does": "doesnt",
		"did": "didnt", "has": "hasnt", "have": "hasnt", "had": "hasnt", "is": "isnt", "was": "wasnt", "are": "arent",
	}
	out := make([]Token, 0, len(toks))
	for i, t := range toks {
		if w := short[t.Raw]; w != "" && TokenAt(toks, i+1).Is("not") {
			t.Raw = w
		} else if t.Is("not") && short[TokenAt(toks, i-1).Raw] != "" {
			continue
		}
		out = append(out, t)
	}
	return out
}
