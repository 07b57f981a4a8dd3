package session_test

import (
	"testing"
	"unicode"

	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"

	"spotward/session/words"
)

func TestOneLine(t *testing.T) {
	for text, want := range map[string]string{
		"Heron":                       "Heron",
		"名前, Müller":                  "名前, Müller",
		"\x1b[31mHe\x1b]0;title\aron": " [31mHe ]0;title ron",
		"two\r\nlines\tand\u2028more": "two  lines and more",
		"turned\u202eround\u200b":     "turned round ",
		"a hard\u00a0space":           "a hard space",
		"not UTF-8: \xff":             "not UTF-8: \uFFFD",
	} {
		assert.Equal(t, want, words.OneLine(text))
	}
}

func TestOneLineIsSafeToPrint(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		line := words.OneLine(string(rapid.SliceOf(rapid.Byte()).Draw(t, "bytes")) + rapid.String().Draw(t, "text"))
		for _, r := range line {
			if !unicode.IsPrint(r) {
				t.Fatalf("%U", r)
			}
		}
		assert.Equal(t, line, words.OneLine(line))
	})
}
