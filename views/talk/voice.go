package talk

import (
	"fmt"
	"io"
	"strconv"
	"strings"
	"unicode"

	"spotward/session/words"
)

// voice says lines, a sentence each, so that a screen reader can repeat one.
// Its first error is kept and ends everything.
type voice struct {
	out io.Writer
	err error
}

func (v *voice) say(text string) {
	for _, line := range sentences(words.OneLine(text)) {
		v.sayWhole(line)
	}
}

// sayWhole says a text as one line, for what must not be torn apart.
func (v *voice) sayWhole(text string) {
	if v.err == nil {
		_, v.err = fmt.Fprintln(v.out, words.OneLine(text))
	}
}

func (v *voice) sayf(format string, args ...any) { v.say(fmt.Sprintf(format, args...)) }

// sentences splits a text after each full stop, question mark or call that
// another sentence follows.
func sentences(text string) []string {
	var out []string
	words, from := strings.Fields(text), 0
	for i, w := range words {
		last := i == len(words)-1
		if last || strings.ContainsRune(".?!", rune(w[len(w)-1])) && unicode.IsUpper([]rune(words[i+1])[0]) {
			out = append(out, strings.Join(words[from:i+1], " "))
			from = i + 1
		}
	}
	return out
}

// mm says a length to a tenth.
func mm(v float64) string { return strconv.FormatFloat(v, 'f', 1, 64) + " mm" }

// full ends a text with a full stop, where nothing ends it yet.
func full(text string) string {
	if text == "" || strings.ContainsRune(".?!", rune(text[len(text)-1])) {
		return text
	}
	return text + "."
}
