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

func TestTurnWords(t *testing.T) {
	for turns, want := range map[float64]string{
		1. / 8: "an eighth of a turn", -1. / 4: "a quarter of a turn", 1. / 2: "half a turn", 3. / 16: "3 sixteenths of a turn",
		1: "one whole turn", 1.25: "1 and a quarter turns", 2: "2 turns", 0.2: "0.2 turns",
	} {
		assert.Equal(t, want, turnWords(turns))
	}
}
