package talk

import (
	"bytes"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
)

func TestSentences(t *testing.T) {
	tests := []struct {
		text string
		want string
	}{
		{"", ""},
		{"One. Two? Three", "One.\nTwo?\nThree\n"},
		{"It is f/4.7 and 1.5 mm.", "It is f/4.7 and 1.5 mm.\n"},
		{"At 12 o'clock. 4 mm off.", "At 12 o'clock. 4 mm off.\n"},
		{"a \x1b[2J name\x07", "a [2J name\n"},
		{"line\nbreak", "line break\n"},
	}
	for _, tt := range tests {
		var b bytes.Buffer
		(&voice{out: &b}).say(tt.text)
		assert.Equal(t, tt.want, b.String(), tt.text)
	}
	var b bytes.Buffer
	(&voice{out: &b}).sayWhole("One. Two \x1b[0m\u202e.")
	assert.Equal(t, "One. Two  [0m .\n", b.String())
}

func TestLinesAreBrokenBetweenWords(t *testing.T) {
	var b bytes.Buffer
	(&voice{out: &b, width: 30}).sayWhole("Never toward the sun, and a card over the end whenever it can reach the mirror.")
	lines := strings.Split(strings.TrimSpace(b.String()), "\n")
	assert.Greater(t, len(lines), 1)
	for _, line := range lines {
		assert.LessOrEqual(t, len(line), 30)
	}
	assert.Equal(t, "Never toward the sun, and a card over the end whenever it can reach the mirror.", strings.Join(lines, " "))
}
