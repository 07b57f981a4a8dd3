package shelf_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"spotward/session/scope"
)

func TestAllMistakesOfAFile(t *testing.T) {
	all := scope.Mistakes([]byte("format = 1\nname = \"Wren\"\naperture_mm = \"wide\"\nfocal_lenght_mm = 1200\n[tube]\ninner_radus_mm = 100\n[primary]\nscrews = 2\n[finder]\nx = 1\n"))
	var lines []string
	for _, err := range all {
		lines = append(lines, err.Error())
	}
	said := strings.Join(lines, "\n")
	for _, want := range []string{"did you mean focal_length_mm?", "did you mean inner_radius_mm?", "aperture_mm = \"wide\"", "primary.screws = 2", "[finder]: unknown table", "focal_length_mm is missing"} {
		assert.Contains(t, said, want)
	}
	assert.Len(t, all, 6)
	assert.Empty(t, scope.Mistakes(scope.EncodeScope(scope.Builtin())))
}

func TestADiameterForARadius(t *testing.T) {
	s := scope.Builtin()
	require.Empty(t, s.Doubts())
	s.Tube.InnerRadius = scope.MM(1.15 * s.Aperture.MM())
	require.Len(t, s.Doubts(), 1)
	assert.Contains(t, s.Doubts()[0], "tube.inner_radius")
	assert.Contains(t, scope.Difference(scope.Builtin(), s)[0], "tube.inner_radius")
	assert.Empty(t, scope.Difference(s, s))
}
