package shelf_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"spotward/session/scope"
)

func TestDecodeKit(t *testing.T) {
	want := scope.Laser{Class: "2", HoleFromAxis: scope.MM(260), Face: scope.FaceFlat}
	for name, file := range map[string]string{
		"in its table": "format = 1\nname = \"Loan 1\"\n[laser]\nclass = \"2\"\nhole_from_axis_mm = 260\nface = \"flat\"\n",
		"above it":     "format = 1\nname = \"Loan 1\"\nclass = \"2\"\nhole_from_axis_mm = 260\nface = \"flat\"\n",
		"keys alone":   "class = \"2\"\nhole_from_axis_mm = 260\nface = \"flat\"\n",
	} {
		t.Run(name, func(t *testing.T) {
			k, err := scope.DecodeKit([]byte(file), "Loan 1")
			require.NoError(t, err)
			assert.Equal(t, scope.Kit{Name: "Loan 1", Laser: want}, k)
		})
	}
}

func TestBadKits(t *testing.T) {
	for file, want := range map[string]string{
		`aperture_mm = 250`:                          `aperture_mm = 250: unknown key; expected one of format, name, check_days, notes`,
		"class = \"4\"":                              `laser.class = "4": expected one of "1", "2", "3R", "I", "II", "IIIa"; a laser of more than 5 mW is not used here`,
		"class = \"2\"\n[laser]\nface = \"flat\"":    `class = "2": expected in [laser]`,
		"name = \"../x\"":                            `name = "../x": expected letters, digits, spaces and -_.'()+&, only`,
		"format = 3":                                 `format = 3: expected 1, the only one this program knows; a newer program knows others`,
		"hole_radius_mm = 6\nface_radius_mm = 5.5":   `laser.face_radius_mm = 5.5: expected more than hole_radius, 6 mm`,
		"[primary]\nscrews = 3":                      `[primary]: unknown table; expected one of [laser]`,
		"hole_from_axis_mm = -1\nring_count = 1e300": `laser.hole_from_axis_mm = -1: expected a number of mm from 20 to 1500`,
	} {
		_, err := scope.DecodeKit([]byte(file), "loan")
		require.Error(t, err, file)
		assert.Equal(t, want, err.Error())
	}
}

func TestKitRoundTrips(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		k := scope.Kit{Name: names().Draw(t, "name"), Laser: lasers().Draw(t, "laser")}
		back, err := scope.DecodeKit(scope.EncodeKit(k), "")
		require.NoError(t, err)
		require.Equal(t, k, back)
	})
}
