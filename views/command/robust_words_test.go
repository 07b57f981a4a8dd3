//go:build !windows

package command_test

import (
	"os/exec"
	"strings"
	"testing"
	"unicode"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// What somebody types, or names themself, reaches no terminal as it is: not
// while it is typed, and not from the records later.
func TestControlCharactersReachNoTerminal(t *testing.T) {
	const hostile = "\x1b[2J\x1b]0;owned\x07\u009b31mred\u202eback"
	dir := t.TempDir()
	shown := func(in string, args ...string) string {
		cmd := exec.Command(program(t), append(args, "--data", dir)...)
		cmd.Stdin = strings.NewReader(in)
		out, _ := cmd.CombinedOutput()
		text := string(out)
		bad := strings.IndexFunc(text, func(r rune) bool { return unicode.IsControl(r) && r != '\n' || r == '\u202e' })
		require.Equal(t, -1, bad, "%q of %q", text, args)
		return text
	}
	shown("1\nyes\n1\n"+hostile+"\n4 2\nskip "+hostile+"\ncant see\nskip "+hostile+"\nstatus\nstop safely\nyes\n", "talk", "--who", hostile, "Dunlin")
	list := shown("", "records")
	require.Contains(t, list, "Dunlin")
	lib := openedAt(t, dir)
	records, errs := lib.Records()
	require.Empty(t, errs)
	require.Len(t, records, 1)
	for _, sub := range []string{"show", "replay"} {
		assert.NotEmpty(t, shown("", "records", sub, records[0].ID))
	}
	for _, args := range [][]string{{"align", hostile}, {"feed", hostile}, {"talk", hostile}, {"scopes", "show", hostile}, {"records", "show", hostile}, {hostile}, {"--" + hostile}} {
		assert.NotEmpty(t, shown("", args...))
	}
}
