package sessiontest

import (
	"strings"
	"unicode"

	"github.com/stretchr/testify/require"
)

// AssertPlain holds an error to a line that any terminal can show, without the
// names of Go's types.
func AssertPlain(t require.TestingT, err error) {
	msg := err.Error()
	odd := strings.IndexFunc(msg, func(r rune) bool { return !unicode.IsPrint(r) })
	require.Equal(t, -1, odd, "%q", msg)
	require.Less(t, len(msg), 600, msg)
	for _, leak := range []string{"session.", "*scope.", "journal.L", "reading.S", "struct", "float64", "map[", "interface", "strconv", " toml: "} {
		require.NotContains(t, " "+msg, leak)
	}
}
