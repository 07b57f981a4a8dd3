package session_test

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"spotward/session/words"
)

func TestDidYouMean(t *testing.T) {
	birds := []string{"Heron", "Heron 2", "Curlew", "Wren"}
	for said, want := range map[string]string{
		"hern": ": did you mean Heron?", "CURLEW": ": did you mean Curlew?", "curlwe": ": did you mean Curlew?",
		"cur": ": did you mean Curlew?", "wrn": ": did you mean Wren?", "osprey": "", "": "", "x": "",
	} {
		assert.Equal(t, want, words.DidYouMean(said, birds), said)
	}
}
