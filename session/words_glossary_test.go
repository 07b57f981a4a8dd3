package session_test

import (
	"testing"
	"unicode/utf8"

	"github.com/stretchr/testify/assert"

	"spotward/session/words"
)

func TestTheGlossaryIsAPage(t *testing.T) {
	terms := words.Glossary()
	assert.LessOrEqual(t, len(terms), 17, "rows of the usual screen")
	assert.NotEmpty(t, terms)
	for _, term := range terms {
		assert.LessOrEqual(t, utf8.RuneCountInString(term.Word), 15, term.Word)
		assert.LessOrEqual(t, utf8.RuneCountInString(term.Means), 42, term.Word)
	}
}
