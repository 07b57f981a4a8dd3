package session_test

import (
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"spotward/optics"
	"spotward/optics/picture"
	"spotward/session/photo"
	"spotward/session/scope"
)

// A reading says the place on the dial of the picture, whatever the focuser, with
// the error along the line and across it.
func TestReadingIsWhereThePictureHasIt(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		tel := scope.Builtin().Telescope()
		tel.FocuserDeg = rapid.Float64Range(0, 360).Draw(t, "focuser")
		face := rapid.SampledFrom([]optics.Face{optics.FacePrimary, optics.FaceTarget}).Draw(t, "face")
		s := picture.Sight{
			Face: face, At: optics.AtHour(rapid.Float64Range(0, 12).Draw(t, "hour"), rapid.Float64Range(0.1, 60).Draw(t, "mm")),
			AlongMM: rapid.Float64Range(0.06, 1).Draw(t, "along"), AcrossMM: rapid.Float64Range(0.06, 4).Draw(t, "across"),
		}
		ev := photo.Reading(s, tel, photo.Of("a.jpg", []byte("a")))
		seen := optics.Seen{Right: ev.Right, Up: ev.Up}
		d := tel.ToDial(face, seen)
		assert.InDelta(t, s.At.Right, d.Right, 1e-9)
		assert.InDelta(t, s.At.Up, d.Up, 1e-9)
		c, n := ev.Cov, seen.Len()
		x, y := ev.Right/n, ev.Up/n
		assert.InDelta(t, s.AlongMM, math.Sqrt(c[0]*x*x+2*c[1]*x*y+c[2]*y*y), 1e-6)
		assert.InDelta(t, s.AcrossMM, math.Sqrt(c[0]*y*y-2*c[1]*x*y+c[2]*x*x), 1e-6)
	})
}

func TestNoReadingIsCertain(t *testing.T) {
	ev := photo.Reading(picture.Sight{Face: optics.FacePrimary, At: optics.Dial{Right: 1}}, scope.Builtin().Telescope(), photo.Of("a", []byte("a")))
	assert.Greater(t, ev.Cov[0]*ev.Cov[2]-ev.Cov[1]*ev.Cov[1], 0.0)
}

// A picture is told by its file's name alone, as a terminal may show it, and its
// hash.
func TestOfTellsNoFolder(t *testing.T) {
	for name, want := range map[string]string{
		"/home/ada/IMG 1.jpg":             "IMG 1.jpg",
		`C:\Users\ada\IMG 1.jpg`:          "IMG 1.jpg",
		"a\x1b[2Jb.jpg":                   "a [2Jb.jpg",
		"a\xff.jpg":                       "a_.jpg",
		"":                                "picture",
		"/":                               "picture",
		strings.Repeat("é", 200) + ".jpg": strings.Repeat("é", 127),
	} {
		assert.Equal(t, want, photo.Of(name, []byte("x")).Name, "%q", name)
	}
	of := photo.Of("a.jpg", []byte("abc"))
	require.Equal(t, int64(3), of.Bytes)
	// FIPS 180-4, the example of SHA-256 for "abc".
	assert.Equal(t, "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad", of.SHA256)
}
