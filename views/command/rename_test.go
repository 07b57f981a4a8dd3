package command_test

import (
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Names are mended, lists brought in, packs settled and kits put out of use, each
// without a question left open.
func TestNamesListsAndPacks(t *testing.T) {
	dir, in := t.TempDir(), t.TempDir()
	data := "--data=" + dir
	k := newKeeper(t, dir)
	id := k.align()
	said, _ := run(t, 0, "scopes", "rename", "heron", "Grey heron", data)
	assert.Equal(t, "heron is Grey heron now, in 1 record and 1 journal.\n", said)
	said, _ = run(t, 0, "records", "people", "rename", "ada", "Ada Byrd", data)
	assert.Contains(t, said, "in 1 record and 1 journal")
	said, _ = run(t, 0, "records", data)
	assert.Contains(t, said, "Grey heron")
	assert.Contains(t, said, "Ada Byrd")
	run(t, 0, "records", "replay", id, "--plain", data)

	list := filepath.Join(in, "shed.csv")
	require.NoError(t, os.WriteFile(list, []byte("name,aperture_mm,focal_length_mm,kit\nWren,114,900,Red box\nBad,1,900,\n"), 0o644))
	said, errs := run(t, 1, "scopes", "add", list, data)
	assert.Equal(t, "Wren is added.\n  Its kit \"Red box\" has no description here: spotward kits new --set name=\"Red box\"\n", said)
	assert.Contains(t, errs, "aperture_mm = 1")
	assert.Contains(t, errs, "1 of 2 scopes left out")

	run(t, 0, "scopes", "edit", "grey heron", "--set", `tube=11 1/4"`, "--set", "locks=0", data)
	said, _ = run(t, 0, "scopes", "show", "grey heron", data)
	assert.Contains(t, said, "inner_radius_in = 5.625")
	_, errs = run(t, 1, "scopes", "edit", "grey heron", "--set", "tueb=9", data)
	assert.Contains(t, errs, "did you mean tube?")

	kit := filepath.Join(dir, "kits", "Red box.toml")
	require.NoError(t, os.WriteFile(kit, []byte("# bought 2019\nclass = \"2\"\n"), 0o644))
	run(t, 0, "kits", "copy", "red box", "Blue box", data)
	run(t, 0, "kits", "rename", "Blue box", "Green box", data)
	run(t, 0, "records", "work", "green box", "a new switch", "--part", "laser", data)
	said, _ = run(t, 0, "kits", "show", "green box", data)
	assert.Contains(t, said, "laser: a new switch")

	pack := filepath.Join(in, "shed.zip")
	run(t, 0, "records", "pack", "--to", pack, data)
	said, _ = run(t, 0, "kits", "retire", "Red box", data)
	assert.Contains(t, said, "Still named by Wren")
	said, _ = run(t, 0, "kits", data)
	assert.NotContains(t, said, "Red box")
	said, _ = run(t, 0, "records", "todo", data)
	assert.Regexp(t, "Wren +give it another kit", said)
	said, errs = run(t, 1, "records", "take", pack, data)
	assert.Contains(t, said, "retired here, in use there")
	assert.Contains(t, said, "--theirs or --ours")
	assert.Contains(t, errs, "stays as it is")
	run(t, 0, "records", "take", "--ours", pack, data)
	run(t, 0, "records", "take", "--theirs", pack, data)
	said, _ = run(t, 0, "kits", data)
	assert.Contains(t, said, "Red box")

	for want, args := range map[string][]string{
		"did you mean Wren?":    {"scopes", "rename", "wrne", "Owl"},
		"not looked at yet":     {"records", "show", "wren"},
		"with --merge":          {"scopes", "rename", "wren", "Grey heron"},
		"no person \"Eve\"":     {"records", "people", "rename", "Eve", "Eva"},
		"did you mean Red box?": {"kits", "retire", "red bix"},
		"called Green box":      {"kits", "copy", "red box", "green box"},
	} {
		_, errs := run(t, 1, append(args, data)...)
		assert.Contains(t, errs, want, args)
	}
}
