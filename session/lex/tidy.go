package lex

import (
	"math"
	"strconv"
)

// Tidy writes numbers, ranges and units of a line in one way: "twenty five" is
// 25, "half an inch" 0.5", "10-15" its mean, "second ring" 2 rings.
func Tidy(toks []Token, printed bool) []Token {
	if printed {
		toks = nthRing(toks)
	}
	for _, pass := range []func([]Token) []Token{tens, pastHour, andAHalf, halfOclock, parts, clockThirty, ranges, units} {
		toks = pass(toks)
	}
	return toks
}

// numberToken makes a token of a number that was written in words.
func numberToken(v float64, like Token, raw string) Token {
	like.Raw, like.Shape, like.Value = raw, ShapeDecimal, v
	if v == math.Trunc(v) {
		like.Shape = ShapeWhole
	}
	if IsDigit(rune(raw[0])) {
		like.Raw = strconv.FormatFloat(v, 'f', -1, 64)
	}
	return like
}

func (t Token) IsNumber() bool { return t.Shape != ShapeWord }

// PlainNumber reports whether t is a number that may be counted in.
func (t Token) PlainNumber() bool {
	return t.Shape != ShapeWord && t.Shape != ShapeClock && t.Sign == 0
}

// TokenAt returns the token at i, or an empty one.
func TokenAt(toks []Token, i int) Token {
	if i >= 0 && i < len(toks) {
		return toks[i]
	}
	return Token{}
}

// Spelled returns the value of a number in words below a hundred.
func Spelled(w string) (float64, bool) {
	if n, ok := numberWord(w); ok {
		return n, true
	}
	if w == "zero" {
		return 0, true
	}
	for i, n := range [...]string{"thirteen", "fourteen", "fifteen", "sixteen", "seventeen", "eighteen", "nineteen"} {
		if n == w {
			return float64(13 + i), true
		}
	}
	for i, n := range [...]string{"twenty", "thirty", "forty", "fifty", "sixty", "seventy", "eighty", "ninety"} {
		if n == w {
			return float64(20 + 10*i), true
		}
	}
	return 0, false
}

// tens reads numbers in words: "thirty", "twenty five", "a couple of".
func tens(toks []Token) []Token {
	var out []Token
	for i := 0; i < len(toks); i++ {
		t := toks[i]
		switch v, ok := Spelled(t.Raw); {
		case t.Is("couple"), t.Is("dozen"):
			if n := len(out); n > 0 && out[n-1].Is("a") {
				out = out[:n-1]
			}
			if t.Is("dozen") {
				t = numberToken(12, t, "12")
				break
			}
			t = numberToken(2, t, "2")
		case t.Shape == ShapeWord && ok:
			t.Shape, t.Value = ShapeWhole, v
			if next, ok := Spelled(TokenAt(toks, i+1).Raw); ok && v >= 20 && next < 10 {
				t = numberToken(v+next, t, "0")
				i++
			}
		}
		out = append(out, t)
	}
	return out
}

// pastHour reads "ten past four".
func pastHour(toks []Token) []Token {
	var out []Token
	for i := 0; i < len(toks); i++ {
		t, hour := toks[i], TokenAt(toks, i+2)
		minutes := t.Shape == ShapeWhole && t.Sign == 0 && t.Value < 60 && t.Value >= 5
		if minutes && TokenAt(toks, i+1).Is("past", "after") && hour.Shape == ShapeWhole && hour.Value >= 1 && hour.Value <= 12 {
			t.Raw, t.Shape, t.Value = t.Raw+" past "+hour.Raw, ShapeClock, hour.Value+t.Value/60
			i += 2
		}
		out = append(out, t)
	}
	return out
}

// halfOclock reads "2 1/2 o'clock" as half past two.
func halfOclock(toks []Token) []Token {
	var out []Token
	for i := 0; i < len(toks); i++ {
		t, part := toks[i], TokenAt(toks, i+1)
		if t.Shape == ShapeWhole && t.Sign == 0 && part.Shape == ShapeFraction && part.Sign == 0 && TokenAt(toks, i+2).Is("oclock", "o") {
			t.Raw, t.Shape, t.Value = t.Raw+" "+part.Raw, ShapeClock, t.Value+part.Value
			i++
		}
		out = append(out, t)
	}
	return out
}

// clockThirty reads "four thirty" as half past four, and "4 30 5".
func clockThirty(toks []Token) []Token {
	var out []Token
	for i := 0; i < len(toks); i++ {
		t, next := toks[i], TokenAt(toks, i+1)
		hour := t.Shape == ShapeWhole && t.Sign == 0 && t.Value >= 1 && t.Value <= 12
		minutes := next.Shape == ShapeWhole && !next.Part && next.Raw != "" && !IsDigit(rune(next.Raw[0])) && (next.Value == 15 || next.Value == 30)
		figures := next.Shape == ShapeWhole && !next.Part && len(next.Raw) == 2 && (next.Value == 15 || next.Value == 30 || next.Value == 45) && TokenAt(toks, i+2).PlainNumber()
		if hour && (minutes || figures) && !IsUnit(TokenAt(toks, i+2)) {
			t.Raw, t.Shape, t.Value = t.Raw+" "+next.Raw, ShapeClock, t.Value+next.Value/60
			i++
		}
		out = append(out, t)
	}
	return out
}

// ranges reads "10-15", "10 to 15", "between 4 and 5" as their mean.
func ranges(toks []Token) []Token {
	var out []Token
	for i := 0; i < len(toks); i++ {
		t := toks[i]
		between := t.Is("between")
		at := i
		if between {
			at++
		}
		low, mid, high := TokenAt(toks, at), TokenAt(toks, at+1), TokenAt(toks, at+2)
		if IsUnit(mid) { // 10 mm to 15 mm
			mid, high = TokenAt(toks, at+2), TokenAt(toks, at+3)
			if !mid.Is("to", "or") || !IsUnit(TokenAt(toks, at+4)) {
				mid = Token{}
			}
		}
		joined := mid.Is("-", "to", "or") || between && mid.Is("and")
		same := low.Shape == high.Shape || low.PlainNumber() && high.PlainNumber()
		rising := high.Value > low.Value || between && high.Value != low.Value
		if !joined || !low.IsNumber() || !high.IsNumber() || low.Sign != 0 || high.Sign != 0 || !same || !rising || len(low.Raw) > 2 && low.Shape == ShapeWhole {
			out = append(out, t)
			continue
		}
		spread := math.Abs(high.Value-low.Value) / 2
		mean := (high.Value + low.Value) / 2
		if between && spread > 4 && low.Value <= 12 && high.Value <= 12 { // between 12 and 1
			spread, mean = 6-spread, math.Mod(mean+6, 12)
		}
		r := Token{Raw: low.Raw + "-" + high.Raw, Shape: ShapeDecimal, Value: mean, Spread: spread, Part: low.Part, Gap: low.Gap}
		if low.Shape == ShapeClock {
			r.Shape = ShapeClock
		}
		out = append(out, r)
		for !TokenAt(toks, i).same(high) {
			i++
		}
	}
	return out
}

func (t Token) same(u Token) bool { return t.Raw == u.Raw && t.Shape == u.Shape && t.Value == u.Value }

// unitWords are other words for units, and the one that is read.
var unitWords = map[string]string{
	"millimetre": "mm", "millimeter": "mm", "millimetres": "mm", "millimeters": "mm", "milimetres": "mm", "milimeters": "mm", "milimetre": "mm", "milimeter": "mm",
	"mil": "mm", "mils": "mm", "mill": "mm", "mills": "mm", "mms": "mm",
	"centimetre": "cm", "centimeter": "cm", "centimetres": "cm", "centimeters": "cm", "cms": "cm",
	"inch": `"`, "inches": `"`, "inchs": `"`,
}

// units writes units in one way. "in" is an inch where a place follows it that
// nothing can be inside of: "1 in at 3".
func units(toks []Token) []Token {
	out := make([]Token, 0, len(toks))
	for i, t := range toks {
		before := TokenAt(toks, i-1)
		switch {
		case t.Shape == ShapeWord && unitWords[t.Raw] != "":
			t.Raw = unitWords[t.Raw]
		case t.Is("clk", "clok", "clck") && before.Is("o"):
			t.Raw = "clock"
		case t.Is("hour", "hours", "hrs", "hr", "clk", "oclk") && before.PlainNumber():
			t.Raw = "oclock"
		case t.Is("in") && before.PlainNumber() && (TokenAt(toks, i+1).Is("at") || before.Value < 1):
			t.Raw = `"`
		case t.Is("width", "widths", "wide") && before.Is("ring", "rings"):
			continue
		}
		out = append(out, t)
	}
	return out
}

// nthRing reads "second ring", "2nd ring", "ring 2" of printed rings.
func nthRing(toks []Token) []Token {
	nth := map[string]float64{"first": 1, "second": 2, "third": 3, "fourth": 4, "fifth": 5, "innermost": 1}
	var out []Token
	for i := 0; i < len(toks); i++ {
		t, next := toks[i], TokenAt(toks, i+1)
		switch v := nth[t.Raw]; {
		case v > 0 && next.Is("ring"):
			next.Raw = "rings"
			out = append(withoutOn(out), numberToken(v, t, "0"), next)
			i++
		case t.Shape == ShapeWhole && next.Is("st", "nd", "rd", "th") && TokenAt(toks, i+2).Is("ring"):
			ring := TokenAt(toks, i+2)
			ring.Raw = "rings"
			out = append(withoutOn(out), t, ring)
			i += 2
		case t.Is("ring") && next.Shape == ShapeWhole && next.Value <= 9 && !TokenAt(toks, i-1).IsNumber() && TokenAt(toks, i-1).Is("on", "at", "", "number"):
			t.Raw = "rings"
			out = append(withoutOn(out), next, t)
			i++
		default:
			out = append(out, t)
		}
	}
	return out
}

// withoutOn drops "on the" before a ring that was counted.
func withoutOn(toks []Token) []Token {
	for len(toks) > 0 && toks[len(toks)-1].Is("on", "the", "in") {
		toks = toks[:len(toks)-1]
	}
	return toks
}
