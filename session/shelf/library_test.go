package shelf_test

import (
	"errors"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"spotward/session/journal"
	"spotward/session/scope"
	"spotward/session/sessiontest"
	"spotward/session/shelf"
)

// listing returns every file below dir, for what must not have changed.
func listing(t *testing.T, dir string) []string {
	t.Helper()
	var out []string
	require.NoError(t, filepath.WalkDir(dir, func(path string, d os.DirEntry, err error) error {
		if err == nil && !d.IsDir() {
			out = append(out, strings.TrimPrefix(filepath.ToSlash(path), filepath.ToSlash(dir)+"/"))
		}
		return err
	}))
	return out
}

func scopeNames(scopes []scope.Scope) []string {
	var out []string
	for _, s := range scopes {
		out = append(out, s.Name)
	}
	return out
}

func TestPathWithANewNameIsCopiedIn(t *testing.T) {
	l := sessiontest.OpenShelf(t)
	s, err := l.Scope(sessiontest.ScopesDir + "/heron.toml")
	require.NoError(t, err)
	assert.Equal(t, sessiontest.ReadScope(t, "heron"), s)
	assert.Equal(t, []string{"scopes/Heron.toml"}, listing(t, l.Dir()))

	for _, name := range []string{"Heron", "heron", "HERON", sessiontest.ScopesDir + "/heron.toml"} {
		again, err := l.Scope(name)
		require.NoError(t, err, name)
		assert.Equal(t, s, again)
	}
	assert.Len(t, listing(t, l.Dir()), 1)
}

func TestSameNameWithOtherContentIsAskedAbout(t *testing.T) {
	l := sessiontest.OpenShelf(t)
	known, err := l.Scope(sessiontest.ScopesDir + "/heron.toml")
	require.NoError(t, err)
	data, err := os.ReadFile(sessiontest.ScopesDir + "/heron.toml")
	require.NoError(t, err)

	path := filepath.Join(t.TempDir(), "other.toml")
	same := strings.ReplaceAll(string(data), "#", "# another remark,")
	require.NoError(t, os.WriteFile(path, []byte(same), 0o644))
	_, err = l.Scope(path)
	require.NoError(t, err, "remarks are no content")

	changed := strings.Replace(strings.Replace(string(data), "circle_radius_mm = 14", "circle_radius_mm = 16", 1), `"Heron"`, `"HERON"`, 1)
	require.NoError(t, os.WriteFile(path, []byte(changed), 0o644))
	s, err := l.Scope(path)
	var other *shelf.OtherContentError
	require.ErrorAs(t, err, &other)
	sessiontest.AssertPlain(t, err)
	assert.Equal(t, known, other.Known)
	assert.Equal(t, scope.MM(16), other.New.Secondary.Circle)
	assert.Equal(t, other.New, s, "who lets the path win goes on with it")
	still, err := l.Scope("heron")
	require.NoError(t, err)
	assert.Equal(t, known, still)

	require.NoError(t, l.SaveScope(other.New))
	now, err := l.Scope("heron")
	require.NoError(t, err)
	assert.Equal(t, other.New, now)
	assert.Equal(t, []string{"scopes/Heron.toml"}, listing(t, l.Dir()), "in the place of the old one")
}

func TestWhatIsNoScopeHere(t *testing.T) {
	l := sessiontest.OpenShelf(t)
	dir := t.TempDir()
	big := filepath.Join(dir, "big.toml")
	f, err := os.Create(big)
	require.NoError(t, err)
	require.NoError(t, f.Truncate(50<<20))
	require.NoError(t, f.Close())
	for arg, want := range map[string]string{
		"Reed":                                  `no scope "Reed" here: spotward scopes lists those known, a path to a file brings one in`,
		"":                                      `no scope "" here`,
		"\x1b[2J":                               `no scope "\x1b[2J" here`,
		"/nowhere/reed.toml":                    "/nowhere/reed.toml cannot be read: no such file or directory",
		"reed.toml":                             "reed.toml cannot be read: no such file or directory",
		dir:                                     "is not a plain file",
		big:                                     big + " is too long to describe a telescope: expected at most 64 KB",
		sessiontest.ScopesDir + "/bad/nan.toml": "bad/nan.toml: aperture_mm = nan: expected a number of mm from 50 to 1500",
	} {
		_, err := l.Scope(arg)
		require.Error(t, err, arg)
		sessiontest.AssertPlain(t, err)
		assert.Contains(t, err.Error(), want)
	}
	assert.Empty(t, listing(t, l.Dir()))
}

func TestScopesAreListedAndBadFilesSaid(t *testing.T) {
	l := sessiontest.OpenShelf(t)
	for _, name := range []string{"wren", "heron", "avocet"} {
		_, err := l.Scope(sessiontest.ScopesDir + "/" + name + ".toml")
		require.NoError(t, err)
	}
	put := func(name, text string) {
		require.NoError(t, os.WriteFile(filepath.Join(l.Dir(), "scopes", name), []byte(text), 0o644))
	}
	put("broken.toml", "format = 1\nname = \"Reed\"\naperture_mm = 0\n")
	put("wren2.toml", "format = 1\nname = \"WREN\"\naperture_mm = 200\nfocal_length_mm = 1000\n")
	put("notes.txt", "hello")
	put(".new-123", "half a file")

	scopes, unread := l.Scopes()
	assert.Equal(t, []string{"Avocet", "Heron", "Wren"}, scopeNames(scopes))
	require.Len(t, unread, 2)
	assert.ErrorContains(t, unread[0], "broken.toml: aperture_mm = 0: expected")
	assert.ErrorContains(t, unread[1], `wren2.toml: name = "WREN": expected a name that no other file there has`)

	_, err := l.Scope("broken")
	assert.ErrorContains(t, err, "aperture_mm = 0", "the reason why it is not known")
	require.Error(t, l.SaveScope(scope.Scope{Format: 1, Name: "Reed"}), "what no file can say is not kept")
	require.ErrorContains(t, l.SaveScope(renamed(sessiontest.ReadScope(t, "wren"), "broken")), "is in the way")
}

func renamed(s scope.Scope, name string) scope.Scope {
	s.Name = name
	return s
}

func TestSaveScopeStaysInsideTheLibrary(t *testing.T) {
	l := sessiontest.OpenShelf(t)
	above := filepath.Dir(l.Dir())
	for _, name := range []string{"../../reed", "..", "/etc/reed", `..\reed`, "a/b", ".", "con", "x\x00y"} {
		assert.Error(t, l.SaveScope(renamed(sessiontest.ReadScope(t, "wren"), name)), name)
		assert.Error(t, l.SaveKit(scope.Kit{Name: name}), name)
		_, err := l.TraineeDir(name)
		assert.Error(t, err, name)
		assert.Error(t, l.RetireScope(name), name)
	}
	assert.Empty(t, listing(t, above))
}

func TestRetiredScopes(t *testing.T) {
	l := sessiontest.OpenShelf(t)
	_, err := l.Scope(sessiontest.ScopesDir + "/wren.toml")
	require.NoError(t, err)
	require.NoError(t, l.RetireScope("WREN"))
	scopes, _ := l.Scopes()
	assert.Empty(t, scopes)
	retired, _ := l.RetiredScopes()
	assert.Equal(t, []string{"Wren"}, scopeNames(retired))
	_, err = l.Scope("wren")
	path := filepath.Join(l.Dir(), "scopes", "retired", "Wren.toml")
	assert.ErrorContains(t, err, `"wren" is retired: to have it back, name its file, `+path)

	_, err = l.Scope(path)
	require.NoError(t, err)
	require.NoError(t, l.RetireScope("Wren"), "a second time")
	assert.Equal(t, []string{"scopes/retired/Wren (2).toml", "scopes/retired/Wren.toml"}, listing(t, l.Dir()))
	assert.ErrorContains(t, l.RetireScope("Wren"), "is retired")
	assert.ErrorContains(t, l.RetireScope("Reed"), "no scope")
	assert.ErrorContains(t, l.RetireScope(sessiontest.ScopesDir+"/heron.toml"), "not a path")
}

func TestKits(t *testing.T) {
	l := sessiontest.OpenShelf(t)
	laser := scope.Laser{Class: "2", HoleFromAxis: scope.MM(255), Face: scope.FaceFlat}
	require.NoError(t, l.SaveKit(scope.Kit{Name: "Loan 2", Laser: laser}))
	require.NoError(t, l.SaveKit(scope.Kit{Name: "Loan 1"}))
	require.NoError(t, l.SaveKit(scope.Kit{Name: "LOAN 1", Laser: laser}), "the same one, described anew")
	require.NoError(t, os.WriteFile(filepath.Join(l.Dir(), "kits", "shed.toml"), []byte("class = \"1\"\n"), 0o644))
	kits, unread := l.Kits()
	require.Empty(t, unread)
	require.Len(t, kits, 3)
	assert.Equal(t, scope.Kit{Name: "LOAN 1", Laser: laser}, kits[0])
	assert.Equal(t, "shed", kits[2].Name, "a file that says no name has its own")

	s := sessiontest.ReadScope(t, "heron")
	s.Laser, s.Kit = scope.Laser{}, "loan 2"
	with, err := l.WithKit(s)
	require.NoError(t, err)
	assert.Equal(t, laser, with.Laser)
	assert.True(t, with.Telescope().Target.Flat)

	s.Kit = "loan 9"
	_, err = l.WithKit(s)
	assert.EqualError(t, err, `no kit "loan 9" here: spotward kits lists those known`)
	plain, err := l.WithKit(sessiontest.ReadScope(t, "wren"))
	require.NoError(t, err)
	assert.Equal(t, sessiontest.ReadScope(t, "wren"), plain)

	require.NoError(t, l.SaveKit(scope.Kit{Name: "long", Laser: scope.Laser{HoleFromAxis: scope.MM(900)}}))
	s.Kit = "long"
	_, err = l.WithKit(s)
	assert.ErrorContains(t, err, `kit "long" does not fit "Heron": laser.hole_from_axis_mm = 900`)
}

func TestLibraryThatCannotBeWritten(t *testing.T) {
	file := filepath.Join(t.TempDir(), "file")
	require.NoError(t, os.WriteFile(file, nil, 0o644))
	_, err := shelf.Open(filepath.Join(file, "data"))
	var unkept *journal.UnkeptError
	require.ErrorAs(t, err, &unkept)
	sessiontest.AssertPlain(t, err)

	if os.Geteuid() == 0 {
		t.Skip("root writes where it likes")
	}
	l := sessiontest.OpenShelf(t)
	_, err = l.Scope(sessiontest.ScopesDir + "/wren.toml")
	require.NoError(t, err)
	for _, part := range []string{"scopes", "journals"} {
		part := filepath.Join(l.Dir(), part)
		require.NoError(t, os.Chmod(part, 0o555))
		t.Cleanup(func() { _ = os.Chmod(part, 0o755) })
	}
	l, err = shelf.Open(l.Dir())
	require.ErrorAs(t, err, &unkept)
	assert.Contains(t, err.Error(), "permission denied")
	_, err = l.Scope("wren")
	require.NoError(t, err, "what is there can be read")
	s, err := l.Scope(sessiontest.ScopesDir + "/heron.toml")
	require.ErrorAs(t, err, &unkept)
	assert.Equal(t, "Heron", s.Name, "and what cannot be copied in can be used")
	_, err = l.CreateJournal(sessiontest.ID, "", sessiontest.Ticking())
	require.ErrorAs(t, err, &unkept)
	sessiontest.AssertPlain(t, err)
}

func TestLibraryTakenAway(t *testing.T) {
	l := sessiontest.OpenShelf(t)
	require.NoError(t, os.RemoveAll(l.Dir()))
	s, err := l.Scope(sessiontest.ScopesDir + "/wren.toml")
	var unkept *journal.UnkeptError
	require.ErrorAs(t, err, &unkept)
	sessiontest.AssertPlain(t, err)
	assert.Equal(t, "Wren", s.Name)
	_, err = l.CreateJournal(sessiontest.ID, "", sessiontest.Ticking())
	assert.True(t, errors.As(err, &unkept), "%v", err)
	_, err = os.Stat(l.Dir())
	assert.ErrorIs(t, err, os.ErrNotExist)
}
