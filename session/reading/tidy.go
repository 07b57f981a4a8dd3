package reading

import (
	"math"
	"strconv"
)

// tidy writes numbers, ranges and units of a line in one way: "twenty five" is
// 25, "half an inch" 0.5", "10-15" its mean, "second ring" 2 rings.
func tidy(toks []token, printed bool) []token {
	if printed {
		toks = nthRing(toks)
	}
	for _, pass := range []func([]token) []token{tens, pastHour, andAHalf, parts, clockThirty, ranges, units} {
		toks = pass(toks)
	}
	return toks
}

// number makes a token of a number that was written in words.
func numberToken(v float64, like token, raw string) token {
	like.raw, like.shape, like.value = raw, shapeDecimal, v
	if v == math.Trunc(v) {
		like.shape = shapeWhole
	}
	if isDigit(rune(raw[0])) {
		like.raw = strconv.FormatFloat(v, 'f', -1, 64)
	}
	return like
}

func (t token) isNumber() bool { return t.shape != shapeWord }

// plainNumber reports whether t is a number that may be counted in.
func (t token) plainNumber() bool {
	return t.shape != shapeWord && t.shape != shapeClock && t.sign == 0
}

// at returns the token at i, or an empty one.
func tokenAt(toks []token, i int) token {
	if i >= 0 && i < len(toks) {
		return toks[i]
	}
	return token{}
}

// spelled returns the value of a number in words below a hundred.
func spelled(w string) (float64, bool) {
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
func tens(toks []token) []token {
	var out []token
	for i := 0; i < len(toks); i++ {
		t := toks[i]
		switch v, ok := spelled(t.raw); {
		case t.is("couple"):
			if n := len(out); n > 0 && out[n-1].is("a") {
				out = out[:n-1]
			}
			t = numberToken(2, t, "2")
		case t.shape == shapeWord && ok:
			t.shape, t.value = shapeWhole, v
			if next, ok := spelled(tokenAt(toks, i+1).raw); ok && v >= 20 && next < 10 {
				t = numberToken(v+next, t, "0")
				i++
			}
		}
		out = append(out, t)
	}
	return out
}

// pastHour reads "ten past four".
func pastHour(toks []token) []token {
	var out []token
	for i := 0; i < len(toks); i++ {
		t, hour := toks[i], tokenAt(toks, i+2)
		minutes := t.shape == shapeWhole && t.sign == 0 && t.value < 60 && t.value >= 5
		if minutes && tokenAt(toks, i+1).is("past", "after") && hour.shape == shapeWhole && hour.value >= 1 && hour.value <= 12 {
			t.raw, t.shape, t.value = t.raw+" past "+hour.raw, shapeClock, hour.value+t.value/60
			i += 2
		}
		out = append(out, t)
	}
	return out
}

// clockThirty reads "four thirty" as half past four.
func clockThirty(toks []token) []token {
	var out []token
	for i := 0; i < len(toks); i++ {
		t, next := toks[i], tokenAt(toks, i+1)
		hour := t.shape == shapeWhole && t.sign == 0 && t.value >= 1 && t.value <= 12
		minutes := next.shape == shapeWhole && !next.part && next.raw != "" && !isDigit(rune(next.raw[0])) && (next.value == 15 || next.value == 30)
		if hour && minutes && !isUnit(tokenAt(toks, i+2)) {
			t.raw, t.shape, t.value = t.raw+" "+next.raw, shapeClock, t.value+next.value/60
			i++
		}
		out = append(out, t)
	}
	return out
}

// ranges reads "10-15", "10 to 15", "between 4 and 5" as their mean.
func ranges(toks []token) []token {
	var out []token
	for i := 0; i < len(toks); i++ {
		t := toks[i]
		between := t.is("between")
		at := i
		if between {
			at++
		}
		low, mid, high := tokenAt(toks, at), tokenAt(toks, at+1), tokenAt(toks, at+2)
		if isUnit(mid) { // 10 mm to 15 mm
			mid, high = tokenAt(toks, at+2), tokenAt(toks, at+3)
			if !mid.is("to", "or") || !isUnit(tokenAt(toks, at+4)) {
				mid = token{}
			}
		}
		joined := mid.is("-", "to", "or") || between && mid.is("and")
		same := low.shape == high.shape || low.plainNumber() && high.plainNumber()
		rising := high.value > low.value || between && high.value != low.value
		if !joined || !low.isNumber() || !high.isNumber() || low.sign != 0 || high.sign != 0 || !same || !rising || len(low.raw) > 2 && low.shape == shapeWhole {
			out = append(out, t)
			continue
		}
		spread := math.Abs(high.value-low.value) / 2
		mean := (high.value + low.value) / 2
		if between && spread > 4 && low.value <= 12 && high.value <= 12 { // between 12 and 1
			spread, mean = 6-spread, math.Mod(mean+6, 12)
		}
		r := token{raw: low.raw + "-" + high.raw, shape: shapeDecimal, value: mean, spread: spread, part: low.part, gap: low.gap}
		if low.shape == shapeClock {
			r.shape = shapeClock
		}
		out = append(out, r)
		for !tokenAt(toks, i).same(high) {
			i++
		}
	}
	return out
}

func (t token) same(u token) bool { return t.raw == u.raw && t.shape == u.shape && t.value == u.value }

// units writes units in one way. "in" is an inch where a place follows it that
// nothing can be inside of: "1 in at 3".
func units(toks []token) []token {
	out := make([]token, 0, len(toks))
	for i, t := range toks {
		before := tokenAt(toks, i-1)
		switch {
		case t.is("millimetre", "millimeter", "millimetres", "millimeters", "mil", "mils", "mill", "mills"):
			t.raw = "mm"
		case t.is("centimetre", "centimeter", "centimetres", "centimeters"):
			t.raw = "cm"
		case t.is("inch", "inches", "inchs"):
			t.raw = `"`
		case t.is("in") && before.plainNumber() && (tokenAt(toks, i+1).is("at") || before.value < 1):
			t.raw = `"`
		case t.is("width", "widths", "wide") && before.is("ring", "rings"):
			continue
		}
		out = append(out, t)
	}
	return out
}

// nthRing reads "second ring", "2nd ring", "ring 2" of printed rings.
func nthRing(toks []token) []token {
	nth := map[string]float64{"first": 1, "second": 2, "third": 3, "fourth": 4, "fifth": 5, "innermost": 1}
	var out []token
	for i := 0; i < len(toks); i++ {
		t, next := toks[i], tokenAt(toks, i+1)
		switch v := nth[t.raw]; {
		case v > 0 && next.is("ring"):
			out = append(withoutOn(out), numberToken(v, t, "0"))
		case t.shape == shapeWhole && next.is("st", "nd", "rd", "th") && tokenAt(toks, i+2).is("ring"):
			out = append(withoutOn(out), t)
			i++
		case t.is("ring") && next.shape == shapeWhole && next.value <= 9 && !tokenAt(toks, i-1).isNumber() && tokenAt(toks, i-1).is("on", "at", "", "number"):
			out = append(withoutOn(out), next, t)
			i++
		default:
			out = append(out, t)
		}
	}
	return out
}

// withoutOn drops "on the" before a ring that was counted.
func withoutOn(toks []token) []token {
	for len(toks) > 0 && toks[len(toks)-1].is("on", "the", "in") {
		toks = toks[:len(toks)-1]
	}
	return toks
}
