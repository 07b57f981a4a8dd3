package command_test

import (
	"bytes"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"spotward/views/command"
)

// typing runs a command with lines typed into it.
func typing(t *testing.T, exit int, lines []string, args ...string) string {
	t.Helper()
	var out, errs bytes.Buffer
	got := command.Run(args, command.Streams{In: strings.NewReader(strings.Join(lines, "\n") + "\n"), Out: &out, Err: &errs})
	require.Equal(t, exit, got, "%s%s", out.String(), errs.String())
	return out.String()
}

// A kit and a scope that names it, described over a pipe; what was left is
// taken up, an estimate is measured later.
func TestDescribedOverAPipe(t *testing.T) {
	data := "--data=" + t.TempDir()
	said := typing(t, 0, []string{"Red box", "3r", "5", `1"`, "flat", "done", ""}, "kits", "new", data)
	assert.Contains(t, said, "Red box is saved.")
	assert.Contains(t, said, "6 mm is assumed, as an estimate")

	said = typing(t, 1, []string{"Wren", "8", "wide", "f/6"}, "scopes", "new", data)
	assert.Contains(t, said, `Not accepted: "wide" is no length`)
	assert.Contains(t, said, "It stops here: what follows was not read.")
	assert.Contains(t, said, "Nothing is saved yet.")
	said = typing(t, 0, []string{"f/6", "2", "done", "kit", "red box", ""}, "scopes", "new", data)
	assert.Contains(t, said, "This goes on where it was left.")
	assert.Contains(t, said, "Wren is saved.")
	file, _ := run(t, 0, "scopes", "show", "wren", data)
	for _, line := range []string{`aperture_in = 8`, `focal_length_mm = 1219`, `focuser_seen_at = "2:00"`, `kit = "Red box"`} {
		assert.Contains(t, file, line)
	}
	kits, _ := run(t, 0, "kits", data)
	assert.Regexp(t, `Red box +3R +25 mm, flat +5, 2 mm apart +Wren`, kits)
	kit, _ := run(t, 0, "kits", "show", "red box", data)
	assert.Contains(t, kit, "face_radius_in = 0.5")
	assert.Contains(t, kit, "# Named by Wren")

	said = typing(t, 0, []string{"mirrors apart", "1000", ""}, "scopes", "edit", "wren", data)
	assert.Contains(t, said, "2: focal length, 1219 mm.", "the other answers are there")
	file, _ = run(t, 0, "scopes", "show", "wren", data)
	assert.Contains(t, file, "from_primary_mm = 1000")
	assert.Contains(t, file, `kit = "Red box"`)

	fleet, _ := run(t, 0, "records", "fleet", data)
	assert.Regexp(t, `Wren +- +never +- +- `, fleet)

	typing(t, 0, []string{"Linnet", "done", ""}, "scopes", "new", "--like", "wren", data)
	file, _ = run(t, 0, "scopes", "show", "linnet", data)
	assert.Contains(t, file, "from_primary_mm = 1000")
	said, _ = run(t, 0, "scopes", "retire", "linnet", data)
	assert.Contains(t, said, "off the shelf")
	_, errs := run(t, 1, "scopes", "edit", "linnet", data)
	assert.Contains(t, errs, "is retired")
	typing(t, 0, []string{"rings", "7", ""}, "kits", "edit", "Red box", data)
	kits, _ = run(t, 0, "kits", data)
	assert.Contains(t, kits, "7, 2 mm apart")
	_, errs = run(t, 1, "scopes", "edit", "dunlin", data)
	assert.Contains(t, errs, "always as it is")
	for _, args := range [][]string{{"scopes", "new", "--like", "crane"}, {"scopes", "edit", "crane"}, {"kits", "new", "--like", "x"}, {"kits", "edit", "x"}} {
		_, errs = run(t, 1, append(args, data)...)
		assert.Contains(t, errs, "here: spotward", args)
		assert.Equal(t, 1, strings.Count(errs, "\n"))
	}
}
