package command_test

import (
	"encoding/json"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"unicode/utf8"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"spotward/session/scope"
)

// writeScope writes a scope's file and returns its path.
func writeScope(t *testing.T, dir, name string, change func(*scope.Scope)) string {
	t.Helper()
	s := scope.Builtin()
	s.Name = name
	if change != nil {
		change(&s)
	}
	path := filepath.Join(dir, name+".toml")
	require.NoError(t, os.WriteFile(path, scope.EncodeScope(s), 0o644))
	return path
}

func TestScopesAreBroughtInAndLookedAt(t *testing.T) {
	in, data := t.TempDir(), "--data="+t.TempDir()
	heron, wren := writeScope(t, in, "Heron", nil), writeScope(t, in, "Wren", nil)
	wide := writeScope(t, in, "Wide", func(s *scope.Scope) { s.Tube.InnerRadius = scope.MM(1.1 * s.Aperture.MM()) })

	shown, _ := run(t, 0, "scopes", "show", heron, data)
	assert.Contains(t, shown, `name = "Heron"`)
	list, _ := run(t, 0, "scopes", data)
	assert.NotContains(t, list, "Heron", "showing brings nothing in")

	said, _ := run(t, 0, "scopes", "add", heron, wren, data)
	assert.Equal(t, "Heron is added.\nWren is added.\n", said)
	_, errs := run(t, 1, "scopes", "add", wide, data)
	assert.Contains(t, errs, "is it the diameter?")
	run(t, 0, "scopes", "add", "--as-is", wide, data)

	writeScope(t, in, "Heron", func(s *scope.Scope) { s.CheckDays = 60 })
	said, errs = run(t, 1, "scopes", "add", heron, data)
	assert.Contains(t, said, "check_days: left out -> check_days = 60")
	assert.Contains(t, errs, "--replace")
	said, _ = run(t, 0, "scopes", "add", "--replace", heron, data)
	assert.Contains(t, said, "Heron is replaced.")
	shown, _ = run(t, 0, "scopes", "show", "heron", data)
	assert.Contains(t, shown, "check_days = 60")

	run(t, 0, "scopes", "retire", "wren", data)
	_, errs = run(t, 1, "scopes", "copy", "heron", "Wren", data)
	assert.Contains(t, errs, "was retired")
	_, errs = run(t, 1, "scopes", "add", wren, data)
	assert.Contains(t, errs, "was retired")
	run(t, 0, "scopes", "add", wren, "--as-is", data)

	bad := filepath.Join(in, "bad.toml")
	require.NoError(t, os.WriteFile(bad, []byte("format = 1\nname = \"Bad\"\naperture_mm = 2\nfocal_lenght_mm = 900\n"), 0o644))
	_, errs = run(t, 1, "scopes", "add", bad, data)
	assert.Contains(t, errs, "did you mean focal_length_mm?")
	assert.Contains(t, errs, "aperture_mm = 2")
}

func TestListsAndWhatIsNotKnown(t *testing.T) {
	dir := t.TempDir()
	data := "--data=" + dir
	k := newKeeper(t, dir)
	id := k.align()
	k.lend(3, 0)
	k.align()
	for _, args := range [][]string{
		{"records"}, {"records", "fleet"}, {"records", "todo"}, {"records", "season"}, {"scopes"}, {"kits"}, {"records", "show", id},
	} {
		out, _ := run(t, 0, append(args, "--json", data)...)
		var got map[string]any
		require.NoError(t, json.Unmarshal([]byte(out), &got), args)
		assert.EqualValues(t, 1, got["v"], args)
	}
	for want, args := range map[string][]string{
		"did you mean Heron?":       {"records", "hern"},
		"; did you mean Heron?":     {"records", "drift", "herno"},
		"no record \"hero\"":        {"records", "show", "hero"},
		"person \"Eve\"":            {"records", "fleet", "--who", "Eve"},
		"did you mean Ada?":         {"records", "todo", "--who", "Adda"},
		"no kit":                    {"kits", "show", "red"},
		"no scope \"osprey\"":       {"scopes", "show", "osprey"},
		"\"osprey\" here":           {"records", "work", "osprey", "seen"},
		"no place":                  {"records", "export", "--to", "-", "--where", "moon"},
		"no scope \"nothere\" here": {"records", "export", "nothere", "--to", "-"},
	} {
		_, errs := run(t, 1, append(args, data)...)
		assert.Contains(t, errs, want, args)
		assert.Equal(t, 1, strings.Count(errs, "\n"), errs)
	}
	for want, args := range map[string][]string{
		"theme":                 {"records", "--theme", "pink"},
		"print it to a PDF":     {"records", "print", id, "--to", "x.pdf"},
		"did you mean ready":    {"records", "--tag", "redy"},
		"--label prints many":   {"records", "print", id, "heron", "--to", "-"},
		"no command \"colour\"": {"man", "colour"},
		"did you mean primary?": {"records", "work", "heron", "x", "--part", "primry"},
	} {
		_, errs := run(t, 2, append(args, data)...)
		assert.Contains(t, errs, want, args)
	}
	list, _ := run(t, 0, "records", "todo", data)
	for _, line := range strings.Split(list, "\n") {
		assert.LessOrEqual(t, utf8.RuneCountInString(line), 80, line)
	}
	assert.Regexp(t, `(?m)^! Heron `, list, "overdue for months")
	run(t, 0, "records", "work", "heron", "spring C replaced", "--part", "primary", "--who", "Ida", data)
	run(t, 0, "records", "work", id, "fog came up", data)
	for want, args := range map[string][]string{
		"primary: spring C replaced (Ida)": {"records", "drift", "heron"},
		"fog came up":                      {"records", "show", id},
		"spring C":                         {"records", "work", "Heron"},
		`"session": "` + id + `"`:          {"records", "work", "--json"},
	} {
		out, _ := run(t, 0, append(args, data)...)
		assert.Contains(t, out, want, args)
	}
	csv, _ := run(t, 0, "records", "todo", "--csv", data)
	assert.True(t, strings.HasPrefix(csv, "scope,kit,need,what,why,due,overdue_days,person\nHeron,"), csv)
	page, _ := run(t, 0, "records", "todo", "--to", "-", data)
	assert.Contains(t, page, "<h1>To do</h1>")
	page, _ = run(t, 0, "records", "season", "--since", "2026-02", "--to", "-", data)
	assert.Contains(t, page, "From 2026-02: ")
	assert.Contains(t, page, "prefers-color-scheme:dark")
	page, _ = run(t, 0, "records", "evening", "--to", "-", data)
	assert.Contains(t, page, "<td>Heron</td>")
	page, _ = run(t, 0, "records", "print", "--label", id, "heron", "--to", "-", data)
	assert.Equal(t, 2, strings.Count(page, `class="label"`))
	man, _ := run(t, 0, "man", "records", "todo")
	assert.Contains(t, man, `.TH "SPOTWARD-RECORDS-TODO"`)
	words, _ := run(t, 0, "__complete", "records", data, "--tag", "")
	assert.Contains(t, words, "hold back")
	words, _ = run(t, 0, "__complete", "practice", "--level", "")
	assert.Contains(t, words, "usual")
}

// What goes into every record is no book.
func TestALongNameIsRefused(t *testing.T) {
	for _, flag := range []string{"--who", "--where"} {
		_, errs := run(t, 2, "feed", "DUNLIN", flag, strings.Repeat("x", 100_000), "--data", t.TempDir())
		assert.Contains(t, errs, "at most 200")
		assert.Less(t, len(errs), 200)
	}
}

// Who keeps a scope of the practice telescope's name means it, and is told so.
func TestAnOwnScopeOfTheBuiltInsName(t *testing.T) {
	data := t.TempDir()
	lib := openedAt(t, data)
	own := scope.Scope{Format: 1, Name: "Dunlin", Aperture: scope.MM(250), FocalLength: scope.MM(1250)}
	require.NoError(t, lib.SaveScope(own))
	_, errs := run(t, 1, "feed", "DUNLIN", "--data", data)
	assert.Contains(t, errs, "Dunlin is the one kept here")
	open, _ := lib.Unfinished("dunlin")
	require.Len(t, open, 1)
	lines, _, err := lib.ReadJournal(open[0].ID)
	require.NoError(t, err)
	assert.Contains(t, string(lines[0].Raw), `"aperture_mm":250`)
	_, errs = run(t, 1, "feed", "DUNLIN", "--data", t.TempDir())
	assert.NotContains(t, errs, "kept here")
}
