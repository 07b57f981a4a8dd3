package command_test

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"spotward/session/sessiontest"
)

const photos = root + "/testdata/photos/"

// lookedAt keeps a scope for the kept pictures and returns its name and where.
func lookedAt(t *testing.T, more string) (scope, data string) {
	t.Helper()
	dir := t.TempDir()
	scope = filepath.Join(dir, "knot.toml")
	require.NoError(t, os.WriteFile(scope, []byte("format = 1\nname = \"Knot\"\naperture_mm = 200\nfocal_length_mm = 1200\nfocuser_seen_at = \"12:00\"\n"+more), 0o600))
	return scope, "--data=" + filepath.Join(dir, "data")
}

func TestPictureAsJSON(t *testing.T) {
	sessiontest.Whole(t)
	scope, data := lookedAt(t, "[primary]\nring_inner_radius_mm = 3.2\nring_outer_radius_mm = 6.5\n[laser]\nhole_radius_mm = 2.5\nface_radius_mm = 12\n")
	for _, c := range []struct {
		exit int
		want string
		args []string
	}{
		{0, `{"v":1,"face":"primary","found":true,"right":-3\.4\d*,"up":3\.8\d*,"sigma_mm":0\.0\d+,"ring_px":\[29,(59|60)\]}`, []string{"primary-05.jpg"}},
		{1, `{"v":1,"found":false,"missing":"ring"}`, []string{"primary-06.jpg"}}, // another scope's ring
		{0, `{"v":1,"face":"target","found":true,"right":-0\.(7[5-9]|8)\d*,"up":0\.2\d*,"sigma_mm":0\.0\d+,"ring_px":\[\d+,\d+\]}`, []string{"shadow-02.jpg", "--shadow"}},
		{1, `{"v":1,"found":false,"missing":"hole"}`, []string{"primary-05.jpg", "--shadow"}},
	}[:sessiontest.Of(0, 2, 4)] {
		out, errs := run(t, c.exit, append([]string{"picture", photos + c.args[0], scope, data, "--json"}, c.args[1:]...)...)
		assert.Regexp(t, "^"+c.want+"\n$", out)
		assert.Empty(t, errs)
	}
}

func TestPictureInWords(t *testing.T) {
	sessiontest.Whole(t)
	scope, data := lookedAt(t, "[primary]\nring_inner_radius_mm = 3.2\nring_outer_radius_mm = 6.5\n")
	out, _ := run(t, 0, "picture", photos+"primary-05.jpg", scope, data)
	assert.Equal(t, "10:30, 5.2 mm from the ring's centre. The error is 0.1 mm along that line and 0.4 mm across it.\n", out)
	if !sessiontest.Long() {
		return
	}
	out, _ = run(t, 1, "picture", photos+"primary-01.jpg", scope, data)
	assert.Contains(t, out, "The centre ring is not clear")

	scope, data = lookedAt(t, "[tube]\ninner_radius_mm = 160\n")
	out, _ = run(t, 0, "picture", photos+"primary-04.jpg", scope, data)
	assert.Contains(t, out, "is a guess. Measure it: spotward scopes edit \"Knot\"\n")
}

// The picture is read, and nothing else happens to it or beside it.
func TestPictureIsOnlyRead(t *testing.T) {
	sessiontest.Whole(t)
	scope, data := lookedAt(t, "")
	dir := t.TempDir()
	file := filepath.Join(dir, "a b.jpg")
	whole, err := os.ReadFile(photos + "primary-05.jpg")
	require.NoError(t, err)
	require.NoError(t, os.WriteFile(file, whole, 0o400))
	run(t, 1, "picture", file, scope, data)
	after, err := os.ReadFile(file)
	require.NoError(t, err)
	assert.Equal(t, whole, after)
	entries, err := os.ReadDir(dir)
	require.NoError(t, err)
	assert.Len(t, entries, 1)
}

func TestPictureThatCannotBeRead(t *testing.T) {
	scope, data := lookedAt(t, "")
	dir := t.TempDir()
	write := func(name, content string) string {
		path := filepath.Join(dir, name)
		require.NoError(t, os.WriteFile(path, []byte(content), 0o600))
		return path
	}
	large := write("large.jpg", "\xff\xd8\xff")
	require.NoError(t, os.Truncate(large, 41<<20))
	for path, want := range map[string]string{
		filepath.Join(dir, "none.jpg"): "there is no picture at",
		dir:                            "is a folder",
		write("empty.jpg", ""):         "is empty",
		write("phone.jpg", "\x00\x00\x00\x18ftypheic\x00\x00"): "HEIC",
		write("words.png", "no picture\n"):                     "no picture",
		large:                                                  "41 MB",
	} {
		out, errs := run(t, 1, "picture", path, scope, data, "--json")
		assert.Empty(t, out, path)
		assert.Contains(t, errs, want, path)
		assert.Equal(t, 1, strings.Count(errs, "\n"), errs)
	}
	for _, args := range [][]string{{"picture"}, {"picture", "a.jpg"}, {"picture", "a.jpg", "b", "c"}, {"picture", "a.jpg", "b", "--sideways"}} {
		run(t, 2, args...)
	}
}
