package session_test

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"spotward/session/words"
)

func TestAPersonIsKnownHoweverTheNameIsTyped(t *testing.T) {
	p := words.PersonOf("José  Wren")
	for _, same := range []string{"José Wren", "jose\u0301 wren", "JOSÉ   WREN ", "\tJosé Wren"} {
		assert.True(t, p.Is(same), same)
		assert.True(t, p.In("with "+same+", later"), same)
	}
	for _, other := range []string{"", "Jose Wren", "José Wrens", "José"} {
		assert.False(t, p.Is(other), other)
		assert.False(t, p.In(other), other)
	}
	assert.False(t, words.PersonOf(" ").Is(""))
	assert.False(t, words.PersonOf("").In("anything"))
}

func TestAPersonAmongOthers(t *testing.T) {
	for _, c := range []struct {
		field, to, want string
		was             bool
	}{
		{"Ada", "", "", true},
		{"Ada, Ben", "", "Ben", true},
		{"Ben and ADA", "", "Ben", true},
		{"Ben & Ada & Cy", "", "Ben, Cy", true},
		{"Adam, Ben", "", "Adam, Ben", false},
		{"Ada and Company", "", "Company", true},
		{"Ben/ada", "Ada Grey", "Ben, Ada Grey", true},
		{"ada, Ada Grey", "Ada Grey", "Ada Grey", true},
		{"Sandy", "", "Sandy", false},
	} {
		got, was := words.PersonOf("Ada").Among(c.field, c.to)
		assert.Equal(t, c.want, got, c.field)
		assert.Equal(t, c.was, was, c.field)
	}
}
