package talk

import (
	"bytes"
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
