package session_test

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"spotward/optics"
	"spotward/session/words"
)

func TestAChanceIsSaidByItsSize(t *testing.T) {
	for _, c := range []struct {
		p    float64
		want string
	}{{1, "almost certain"}, {0.97, "almost certain"}, {0.9, "very likely"}, {0.7, "likely"}, {0.5, "as likely as not"}, {0.2, "unlikely"}} {
		assert.Equal(t, c.want, words.Chance(c.p), c.p)
	}
	assert.Equal(t, "It is very likely to bring the spot nearer.", words.Trust(0.93))
}

func TestNoIDIsShownAsItIs(t *testing.T) {
	for _, said := range []string{words.Outcome("not_today"), words.Tag("hold_back"), words.Tag("with_note"), words.Face(optics.FaceCard), words.Outcome("some_other")} {
		assert.NotContains(t, said, "_")
	}
}

func TestSentence(t *testing.T) {
	for phrase, want := range map[string]string{"": "", "done in part": "Done in part.", "Stop!": "Stop!", "über": "Über."} {
		assert.Equal(t, want, words.Sentence(phrase))
	}
}
