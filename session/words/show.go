package words

import (
	"fmt"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"
)

const (
	NameRunes = 40
	NameMarks = " -_.'()+&,"
)

// showLimit is how much of a value or a key an error repeats, in characters.
const showLimit = 40

// Show returns a value of a file for an error's line: short, without control
// characters.
func Show(value any) string {
	switch v := value.(type) {
	case string:
		return strconv.Quote(Cut(v, showLimit))
	case map[string]any:
		return "{...}"
	case []any:
		parts := make([]string, 0, 5)
		for i, e := range v {
			if i == 4 {
				parts = append(parts, "...")
				break
			}
			if _, nested := e.([]any); nested {
				e = map[string]any{}
			}
			parts = append(parts, Show(e))
		}
		return "[" + strings.Join(parts, ", ") + "]"
	case float64:
		return strings.TrimPrefix(strings.ToLower(strconv.FormatFloat(v, 'g', -1, 64)), "+")
	}
	return OneLine(Cut(fmt.Sprint(value), showLimit))
}

// ShowKey returns a key as a file would have it: bare where it can be.
func ShowKey(table, key string) string {
	if key == "" || strings.ContainsFunc(key, func(r rune) bool {
		return r > unicode.MaxASCII || r != '_' && r != '-' && !unicode.IsLetter(r) && !unicode.IsDigit(r)
	}) {
		key = strconv.Quote(Cut(key, showLimit))
	}
	key = Cut(key, showLimit+2)
	if table == "" {
		return key
	}
	return table + "." + key
}

// Cut returns the first n characters of text, and dots for the rest.
func Cut(text string, n int) string {
	if utf8.RuneCountInString(text) <= n {
		return text
	}
	return string([]rune(text)[:n]) + "..."
}

// OneLine makes of any text one that is safe to print on one line: control and
// formatting characters become spaces.
func OneLine(text string) string {
	return strings.Map(func(r rune) rune {
		if !unicode.IsPrint(r) {
			return ' '
		}
		return r
	}, text)
}
