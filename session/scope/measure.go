package scope

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"spotward/session/words"
)

// measure is a length as somebody says it. Unit is "" where only a number was
// said.
type measure struct {
	value float64
	unit  string
}

// measureUnits are how units are written behind a number; the longer first.
var measureUnits = [...]struct {
	word, unit string
	times      float64
}{
	{`"`, "in", 1}, {"inches", "in", 1}, {"inch", "in", 1}, {"in", "in", 1},
	{"mm", "mm", 1}, {"cm", "mm", 10}, {"m", "mm", 1000},
}

// parseMeasure reads a length: a number with or without its unit, inches in
// fractions too, as in 2 1/2".
func parseMeasure(text string) (measure, bool) {
	number, m, times := strings.ToLower(strings.TrimSpace(text)), measure{}, 1.0
	for _, u := range measureUnits {
		if cut, ok := strings.CutSuffix(number, u.word); ok {
			number, m.unit, times = strings.TrimSpace(cut), u.unit, u.times
			break
		}
	}
	v, ok := parseNumber(number)
	if m.value = v; times != 1 || strings.Contains(number, "/") {
		m.value = math.Round(v*times*1e4) / 1e4 // what is said so is no finer
	}
	return m, ok
}

// parseNumber reads 250, 2,5, 1/4, 2 1/2 and 2-1/2.
func parseNumber(text string) (float64, bool) {
	whole, fraction := "0", text
	if i := strings.LastIndexAny(text, " -"); i > 0 {
		whole, fraction = strings.TrimSpace(text[:i]), text[i+1:]
		if !strings.Contains(fraction, "/") {
			return 0, false
		}
	}
	top, bottom, divided := strings.Cut(fraction, "/")
	if !divided {
		bottom = "1"
	}
	w, okW := plainNumber(whole)
	t, okT := plainNumber(top)
	b, okB := plainNumber(bottom)
	if !okW || !okT || !okB || b == 0 {
		return 0, false
	}
	return w + t/b, true
}

// longestNumber is more than any number of a file takes.
const longestNumber = 400

// plainNumber reads a number of digits with at most a point or a comma.
func plainNumber(text string) (float64, bool) {
	if text == "" || len(text) > longestNumber || strings.Trim(text, "0123456789.,") != "" {
		return 0, false
	}
	v, err := strconv.ParseFloat(strings.Replace(text, ",", ".", 1), 64)
	return v, err == nil
}

func (m measure) length() Length {
	if m.unit == "in" {
		return Inch(m.value)
	}
	return MM(m.value)
}

// Text returns the length as one would say it, with its unit.
func (l Length) Text() string {
	switch l.Unit {
	case "":
		return ""
	case "in":
		return trimmed(l.Value, -1) + `"`
	}
	return trimmed(l.Value, -1) + " mm"
}

// trimmed writes a number with at most so many digits after the point; -1 is as
// many as it takes.
func trimmed(v float64, digits int) string {
	text := strconv.FormatFloat(v, 'f', digits, 64)
	if !strings.Contains(text, ".") {
		return text
	}
	return strings.TrimRight(strings.TrimRight(text, "0"), ".")
}

// roundText says a length that was not measured, in mm or inches.
func roundText(mm float64, inches bool) string {
	digits := 0
	if mm < 20 {
		digits = 1
	}
	text := trimmed(mm, digits)
	if !inches {
		return text + " mm"
	}
	digits = 2
	switch in := mm / words.MmPerInch; {
	case in >= 10:
		digits = 0
	case in >= 1:
		digits = 1
	}
	return fmt.Sprintf(`%s" (%s mm)`, trimmed(mm/words.MmPerInch, digits), text)
}
