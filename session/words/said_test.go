package words

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"spotward/optics"
)

func TestAChanceIsSaidByItsSize(t *testing.T) {
	for _, c := range []struct {
		p    float64
		want string
	}{{1, "almost certain"}, {0.97, "almost certain"}, {0.9, "very likely"}, {0.7, "likely"}, {0.5, "as likely as not"}, {0.2, "unlikely"}} {
		assert.Equal(t, c.want, Chance(c.p), c.p)
	}
	assert.Equal(t, "It is very likely to bring the spot nearer.", Trust(0.93))
}

func TestNoIDIsShownAsItIs(t *testing.T) {
	for _, said := range []string{Outcome("not_today"), Tag("hold_back"), Tag("with_note"), Face(optics.FaceCard), Outcome("some_other")} {
		assert.NotContains(t, said, "_")
	}
}

func TestSentence(t *testing.T) {
	for phrase, want := range map[string]string{"": "", "done in part": "Done in part.", "Stop!": "Stop!", "über": "Über."} {
		assert.Equal(t, want, Sentence(phrase))
	}
}
