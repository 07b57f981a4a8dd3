package words

import (
	"regexp"
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"

	"golang.org/x/text/unicode/norm"
)

// Person is a person's name as it is compared: in small letters, accents put
// together with their letters, one space between the words. The zero Person is
// nobody.
type Person struct{ plain string }

// PersonOf returns the person of that name, however it was typed.
func PersonOf(name string) Person { return Person{plainName(name)} }

func plainName(text string) string {
	return norm.NFC.String(strings.ToLower(strings.Join(strings.Fields(norm.NFC.String(text)), " ")))
}

// Is reports whether name is this person's.
func (p Person) Is(name string) bool { return p.plain != "" && plainName(name) == p.plain }

// In reports whether the name stands in a text as words of its own.
func (p Person) In(text string) bool {
	letter := func(r rune) bool { return unicode.IsLetter(r) || unicode.IsDigit(r) }
	for text = plainName(text); p.plain != ""; {
		before, after, found := strings.Cut(text, p.plain)
		if !found {
			break
		}
		last, _ := utf8.DecodeLastRuneInString(before)
		next, _ := utf8.DecodeRuneInString(after)
		if !letter(last) && !letter(next) {
			return true
		}
		text = after
	}
	return false
}

// between stands between the names of several people in one field.
var between = regexp.MustCompile(`(?i)\s*[,;&+/]\s*|\s+and\s+`)

// Among returns a field of one name or several with this person called to
// instead; with "" the name is taken out. It reports false where the person is
// not among them.
func (p Person) Among(field, to string) (string, bool) {
	if p.Is(field) {
		return to, true
	}
	parts := between.Split(field, -1)
	if !slices.ContainsFunc(parts, p.Is) {
		return field, false
	}
	var rest []string
	for _, part := range parts {
		if p.Is(part) {
			part = to
		}
		if part = strings.TrimSpace(part); part != "" && !slices.ContainsFunc(rest, PersonOf(part).Is) {
			rest = append(rest, part)
		}
	}
	return strings.Join(rest, ", "), true
}
