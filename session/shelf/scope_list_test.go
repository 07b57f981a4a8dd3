package shelf_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"spotward/session/scope"
)

// A list of a spreadsheet is as many files; what is wrong in a row is told as it is
// of a file.
func TestAListOfScopes(t *testing.T) {
	files, err := scope.Files([]byte("name,aperture_mm,focal_length_mm,secondary.screws,primary.labels,notes\n" +
		"Heron,250,1200,3,A B C,\"red, heavy\"\n,,,,,\nWren,114,900.5,,,\nBad,2,900,many,,\n"))
	require.NoError(t, err)
	require.Len(t, files, 3)
	s, err := scope.DecodeScope(files[0])
	require.NoError(t, err)
	assert.Equal(t, "red, heavy", s.Notes)
	assert.Equal(t, []string{"A", "B", "C"}, s.Primary.Labels)
	assert.Equal(t, 3, s.Secondary.Screws)
	s, err = scope.DecodeScope(files[1])
	require.NoError(t, err)
	assert.InDelta(t, 900.5, s.FocalLength.MM(), 0)
	assert.Len(t, scope.Mistakes(files[2]), 2)

	files, err = scope.Files([]byte("name;aperture_mm;focal_length_mm;tube.sky_ned_mm\nWren;114;900,5;1000\n"))
	require.NoError(t, err)
	assert.ErrorContains(t, scope.Mistakes(files[0])[0], "did you mean sky_end_mm?")
	for _, bad := range []string{"", "name\n", "name,kit\nWren,a,b\n", "name\n\"Wren\n"} {
		_, err := scope.Files([]byte(bad))
		assert.Error(t, err, bad)
	}
}
