package talk

import (
	"fmt"
	"io"
	"os"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"

	"golang.org/x/term"

	"spotward/session/words"
)

// voice says lines, a sentence each, so that a screen reader can repeat one.
// Its first error is kept and ends everything.
type voice struct {
	out   io.Writer
	width int // of the terminal that it is said on, columns; 0 = no terminal
	err   error
}

// newVoice returns a voice that says lines on out. On a terminal they are broken
// between words where it ends; elsewhere a sentence stays a line.
func newVoice(out io.Writer) voice {
	v := voice{out: out}
	if f, ok := out.(*os.File); ok && term.IsTerminal(int(f.Fd())) {
		if cols, _, err := term.GetSize(int(f.Fd())); err == nil {
			v.width = cols
		}
	}
	return v
}

func (v *voice) say(text string) {
	for _, line := range sentences(words.OneLine(text)) {
		v.sayWhole(line)
	}
}

// sayWhole says a text as one line, for what must not be torn apart.
func (v *voice) sayWhole(text string) {
	for _, line := range v.broken(words.OneLine(text)) {
		if v.err == nil {
			_, v.err = fmt.Fprintln(v.out, line)
		}
	}
}

// broken returns the lines that a text is said in.
func (v *voice) broken(text string) []string {
	if v.width <= 0 || utf8.RuneCountInString(text) <= v.width {
		return []string{text}
	}
	var lines []string
	line := ""
	for _, word := range strings.Fields(text) {
		if line != "" && utf8.RuneCountInString(line)+1+utf8.RuneCountInString(word) > v.width {
			lines, line = append(lines, line), ""
		}
		line = strings.TrimPrefix(line+" "+word, " ")
	}
	return append(lines, line)
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
