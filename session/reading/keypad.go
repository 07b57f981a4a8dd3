package reading

import (
	"regexp"
	"strconv"
	"strings"

	"spotward/optics"
	"spotward/session/lex"
)

// What a numeric keypad can type of a spot: 430*12 is 4:30, 12 mm; 430/2 two
// ring widths.
var keypadPlace = regexp.MustCompile(`^(\d{1,4}|\d{1,2}[.,:]\d{1,2})\s*([*/])\s*(\d{1,5}(?:[.,]\d{1,5})?)$`)

// A side of what it is inside of: *4 is "in 4", or "home 4".
var keypadSide = regexp.MustCompile(`^\*\s*(\d{1,4}|\d{1,2}[.,:]\d{1,2})$`)

// keypad writes what was typed on a numeric keypad in words: "+" where the cue
// is, "." dead centre, "*" inside, "*4" toward 4 there, "0" not there, "00" not there
// where it may be in the hole as well. It reports false for a line that is none of
// that.
func (c Context) keypad(text string) (line string, ok bool, err *lex.Error) {
	switch text {
	case "+":
		return "=", true, nil
	case ".":
		return "dead", true, nil
	case "*":
		return "in", true, nil
	case "0":
		if c.nearHome() {
			return "", true, askBack(text, "down the hole (*), or off the face (00)?", "*", "00")
		}
		return "not there", true, nil
	case "00":
		return "not there", true, nil
	}
	if m := keypadSide.FindStringSubmatch(text); m != nil {
		if c.Face == optics.FaceTarget && !c.Aside {
			return "home " + m[1], true, nil
		}
		return "in " + m[1], true, nil
	}
	m := keypadPlace.FindStringSubmatch(text)
	if m == nil {
		return "", false, nil
	}
	if m[2] == "*" {
		return m[1] + " " + m[3] + " mm", true, nil
	}
	if c.mayBeFraction(m[1], m[3]) {
		return "", true, c.askFraction(text, m[1], m[3])
	}
	return m[1] + " " + m[3] + "r", true, nil
}

// mayBeFraction reports whether two numbers with a stroke between them may be a
// part of a turn or of the way to the edge.
func (c Context) mayBeFraction(num, den string) bool {
	n, err1 := strconv.Atoi(num)
	d, err2 := strconv.Atoi(den)
	return err1 == nil && err2 == nil && len(num) < 3 && n < d
}

// askFraction asks whether "1/4" is a place or a part of a turn.
func (c Context) askFraction(text, num, den string) *lex.Error {
	place := num + "00/" + den
	if m := c.onlyTold(); m != nil {
		sign := "+"
		if m.Turns < 0 {
			sign = "-"
		}
		name, _, _ := strings.Cut(turnText(m.Turn), " "+sign)
		return askBack(text, "a part of a turn, or "+num+" o'clock and "+den+" rings?", name+" "+sign+text, place)
	}
	return askBack(text, num+" o'clock and "+den+" rings, or a part of the way to the edge?", place, "4:30 "+text)
}
