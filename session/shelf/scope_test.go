package shelf_test

import (
	"encoding/json"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"spotward/optics"
	"spotward/session/scope"
	"spotward/session/sessiontest"
)

func TestHeronSaysAllThereIsToSay(t *testing.T) {
	s := sessiontest.ReadScope(t, "heron")
	assert.Empty(t, s.Guessed())
	cell := optics.Cell{
		Screws: 3, CircleMM: 14, LeadMM: 0.7, GainKnown: optics.Given, Kind: optics.PushPull, SenseKnown: optics.Given,
		Labels: []string{"A", "B", "C"}, LabelsClockwise: true, PlacesKnown: optics.Given,
	}
	primary := cell
	primary.CircleMM, primary.LeadMM, primary.Kind, primary.ClockwisePulls = 90, 0.8, optics.Sprung, true
	primary.FirstDeg, primary.Locks = 30, 3
	assert.Equal(t, optics.Telescope{
		ApertureMM: 250, FocalLengthMM: 1200, FromPrimaryMM: 970, HoleFromAxisMM: 250, MinorAxisMM: 63, PivotAboveMM: 40,
		InnerRadiusMM: 142, SkyEndMM: 1300, FocuserDeg: 60, Secondary: cell, Primary: primary, RingInnerMM: 4.5, RingOuterMM: 8,
		Target: optics.Target{HoleRadiusMM: 3, FaceRadiusMM: 13, RingStepMM: 2, RingCount: 5, BeamWidthMM: 2, AlongFace: true},
	}, s.Telescope())
}

func TestWrenIsMostlyGuessed(t *testing.T) {
	s := sessiontest.ReadScope(t, "wren")
	guessed := s.Guessed()
	for _, want := range []string{
		"where the focuser is seen", "how far apart the mirrors are", "the thread of the primary's screws",
		"where the secondary's screws stand", "which way the secondary's screws move it", "how far out the laser's target hole is",
	} {
		assert.Contains(t, guessed, want)
	}
	assert.NotContains(t, guessed, "how many locks the primary has", "no locks is said, not guessed")
	assert.NotContains(t, guessed, "the laser's class")

	tel := s.Telescope()
	assert.Zero(t, tel.Primary.Locks)
	for _, c := range []optics.Cell{tel.Primary, tel.Secondary} {
		assert.Equal(t, optics.Unknown, c.GainKnown)
		assert.Equal(t, optics.Unknown, c.SenseKnown)
		assert.Equal(t, optics.Guessed, c.PlacesKnown, "labels are taken to be put on as asked")
		assert.Equal(t, []string{"A", "B", "C"}, c.Labels)
		assert.True(t, c.LabelsClockwise)
		assert.Zero(t, c.FirstDeg)
	}
}

func TestAvocetIsInInches(t *testing.T) {
	s := sessiontest.ReadScope(t, "avocet")
	assert.Equal(t, scope.Inch(37), s.Secondary.FromPrimary)
	tel := s.Telescope()
	assert.InDelta(t, 37*25.4, tel.FromPrimaryMM, 1e-9)
	assert.InDelta(t, 25.4/32, tel.Secondary.LeadMM, 1e-9, "32 threads an inch")
	assert.InDelta(t, 25.4/20, tel.Primary.LeadMM, 1e-9, "20 threads an inch")
	assert.Equal(t, 4, tel.Primary.Screws)
	assert.Equal(t, 315.0, tel.FocuserDeg)
	assert.False(t, tel.Primary.LabelsClockwise)
	assert.Equal(t, 45.0, tel.Primary.FirstDeg)
	assert.InDelta(t, 315, tel.Primary.ScrewDeg(1), 1e-9, "B stands a quarter on, against the clock")
	assert.True(t, tel.Target.Flat)
	assert.False(t, tel.Target.AlongFace, "a flat face has no slope")
}

// A guess must leave a telescope that light can pass through.
func TestGuessesFitEachOther(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d := rapid.Float64Range(50, 750).Draw(t, "aperture")
		f := rapid.Float64Range(max(150, 2*d), min(15000, 20*d)).Draw(t, "focal length")
		tel := scope.Scope{Format: 1, Name: "Reed", Aperture: scope.MM(d), FocalLength: scope.MM(f)}.Telescope()
		assert.Greater(t, tel.FromPrimaryMM, 0.0)
		assert.Less(t, tel.FromPrimaryMM, f)
		assert.Greater(t, tel.HoleFromAxisMM, f-tel.FromPrimaryMM, "the hole is beyond the focus")
		assert.GreaterOrEqual(t, tel.InnerRadiusMM, d/2)
		assert.Greater(t, tel.SkyEndMM, tel.FromPrimaryMM)
		assert.Less(t, tel.Target.HoleRadiusMM, tel.Target.FaceRadiusMM)
		assert.Less(t, tel.RingInnerMM, tel.RingOuterMM)
	})
}

// The messages are what a person has to go by who wrote a file by hand.
func TestBadScopes(t *testing.T) {
	files, err := filepath.Glob(filepath.Join(sessiontest.ScopesDir, "bad", "*.toml"))
	require.NoError(t, err)
	require.NotEmpty(t, files)
	var all strings.Builder
	for _, path := range files {
		data, err := os.ReadFile(path)
		require.NoError(t, err)
		_, err = scope.DecodeScope(data)
		require.Error(t, err, path)
		sessiontest.AssertPlain(t, err)
		all.WriteString(filepath.Base(path) + "\n\t" + err.Error() + "\n")
	}
	sessiontest.Golden(t, filepath.Join(sessiontest.ScopesDir, "bad", "messages.golden"), all.String())
}

func TestTooLongAFileIsNotLookedAt(t *testing.T) {
	data := []byte("format = 1\n" + strings.Repeat("# reed\n", 50<<20/7))
	_, err := scope.DecodeScope(data)
	require.Error(t, err)
	assert.Equal(t, "the file is too long to describe a telescope: expected at most 64 KB", err.Error())
	assert.Less(t, testing.AllocsPerRun(3, func() { _, _ = scope.DecodeScope(data) }), 10.0)
}

func TestDeepNestingIsAnError(t *testing.T) {
	for _, open := range []string{"[", "{a=", "[{a="} {
		_, err := scope.DecodeScope([]byte("labels = " + strings.Repeat(open, 60000/len(open))))
		require.Error(t, err)
		sessiontest.AssertPlain(t, err)
	}
}

func TestThreadsAreKeptAsUsuallyWritten(t *testing.T) {
	const file = "format = 1\nname = \"Reed\"\naperture_mm = 200\nfocal_length_mm = 1000\n[primary]\nthread = \"m 5\\n× 0.5\""
	s, err := scope.DecodeScope([]byte(file))
	require.NoError(t, err)
	assert.Equal(t, "M5x0.5", s.Primary.Thread)
	assert.Equal(t, 0.5, s.Telescope().Primary.LeadMM)
}

func TestClock(t *testing.T) {
	for text, deg := range map[string]float64{
		"12:00": 0, "12": 0, "1:00": 30, "2": 60, "2:30": 75, "10:30": 315, "11:58": 359, "3:00": 90, "06:00": 180,
	} {
		c, err := scope.ParseClock(text)
		require.NoError(t, err, text)
		assert.Equal(t, deg, c.Deg(), text)
		assert.Equal(t, c, scope.ClockAt(deg), text)
	}
	for _, text := range []string{"", "0:30", "13:00", "2:60", "2:5", "2:", ":30", "-1:00", "+2:00", "2:00:00", "002:00", " 2:00", "two", "2.5"} {
		_, err := scope.ParseClock(text)
		assert.Error(t, err, text)
	}
	assert.Equal(t, scope.Clock("11:00"), scope.ClockAt(-30))
	assert.Equal(t, scope.Clock("12:00"), scope.ClockAt(359.9))
}

func TestNames(t *testing.T) {
	for _, good := range []string{"Heron", "Old 10-inch (2)", "Grünspecht", "Цапля", "アオサギ", "No. 7", "Père Noël's", "COM", "lpt10"} {
		assert.NoError(t, scope.CheckName(good), good)
	}
	for _, bad := range []string{
		"", " ", ".", "..", "../x", "a/b", `a\b`, "a\x00b", "a\nb", "\x1b[2J", "a\u202eb", "a:b", "a*", "x.toml", "X.TOML", ".hidden",
		"end.", " lead", "con", "NUL", "com1", "LPT9.x", "con .a", "\xff", "~", "$HOME", "a|b", "a\u00a0b", strings.Repeat("x", 41),
	} {
		assert.Error(t, scope.CheckName(bad), "%q", bad)
	}
	assert.True(t, scope.SameName("HERON", "heron"))
	assert.True(t, scope.SameName("Цапля", "цАПЛЯ"))
}

func TestScopeRoundTrips(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := scopes().Draw(t, "scope")
		data := scope.EncodeScope(s)
		back, err := scope.DecodeScope(data)
		require.NoError(t, err, string(data))
		require.Equal(t, s, back)

		asJSON, err := json.Marshal(s)
		require.NoError(t, err)
		var journalled scope.Scope
		require.NoError(t, json.Unmarshal(asJSON, &journalled), string(asJSON))
		require.Equal(t, s, journalled)
	})
}

func TestScopeJSONHasTheKeysOfTheFile(t *testing.T) {
	data, err := json.Marshal(sessiontest.ReadScope(t, "avocet"))
	require.NoError(t, err)
	var keys map[string]any
	require.NoError(t, json.Unmarshal(data, &keys))
	assert.Equal(t, 300.0, keys["aperture_mm"])
	assert.Equal(t, "10:30", keys["focuser_seen_at"])
	secondary := keys["secondary"].(map[string]any)
	assert.Equal(t, 37.0, secondary["from_primary_in"])
	assert.NotContains(t, secondary, "from_primary_mm")

	newer := strings.Replace(string(data), `{"aperture_mm"`, `{"vanes":4,"aperture_mm"`, 1)
	var s scope.Scope
	require.NoError(t, json.Unmarshal([]byte(newer), &s), "what only a newer program knows is passed over")
	assert.Equal(t, sessiontest.ReadScope(t, "avocet"), s)

	foreign := strings.Replace(string(data), `"aperture_mm":300`, `"aperture_mm":-300`, 1)
	err = json.Unmarshal([]byte(foreign), &s)
	require.Error(t, err)
	assert.Equal(t, "scope: aperture_mm = -300: expected a number of mm from 50 to 1500", err.Error())
}

// Every key left out or given alone is either a guess or not, never both.
func TestGuessedFollowsTheFile(t *testing.T) {
	heron := string(scope.EncodeScope(sessiontest.ReadScope(t, "heron")))
	for _, drop := range []struct{ line, words string }{
		{"focuser_seen_at", "where the focuser is seen"},
		{"sky_end_mm", "how long the tube is"},
		{"hole_from_axis_mm", "how far out the laser's target hole is"},
		{"ring_outer_radius_mm", "the centre ring's outer radius"},
		{"locks", "how many locks the primary has"},
		{"use", "what it is used for"},
	} {
		lines := slices.DeleteFunc(strings.Split(heron, "\n"), func(l string) bool { return strings.HasPrefix(l, drop.line+" =") })
		s, err := scope.DecodeScope([]byte(strings.Join(lines, "\n")))
		require.NoError(t, err)
		assert.Equal(t, []string{drop.words}, s.Guessed())
	}
}

func FuzzDecodeScope(f *testing.F) {
	for _, pattern := range []string{"*.toml", "bad/*.toml"} {
		files, err := filepath.Glob(filepath.Join(sessiontest.ScopesDir, pattern))
		require.NoError(f, err)
		for _, path := range files {
			data, err := os.ReadFile(path)
			require.NoError(f, err)
			f.Add(data)
		}
	}
	f.Fuzz(func(t *testing.T, data []byte) {
		s, err := scope.DecodeScope(data)
		if err != nil {
			sessiontest.AssertPlain(t, err)
			return
		}
		back, err := scope.DecodeScope(scope.EncodeScope(s))
		require.NoError(t, err)
		require.Equal(t, s, back)
		tel := s.Telescope()
		require.Positive(t, tel.FromPrimaryMM)
		require.Len(t, tel.Primary.Labels, tel.Primary.Screws)
		require.Len(t, tel.Secondary.Labels, tel.Secondary.Screws)
	})
}
