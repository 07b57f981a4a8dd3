package shelf_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"spotward/session/scope"
)

const byHand = `# The big one, from the estate.
format = 1
name = "Heron" # as on the tube
aperture_mm = 250
focal_length_mm = 1200
notes = "green # 4"   # of the shed

[secondary]
from_primary_mm = 970 # measured twice
  thread = "M4"

# What the label says.
[laser]
class = "2"
`

// An edit changes the lines that it must and no other.
func TestARevisedFileKeepsItsComments(t *testing.T) {
	s, err := scope.DecodeScope([]byte(byHand))
	require.NoError(t, err)
	assert.Equal(t, byHand, string(scope.ReviseScope([]byte(byHand), s)))

	s.Secondary.FromPrimary, s.Secondary.Thread, s.Notes = scope.MM(965), "", "blue"
	s.CheckDays, s.Secondary.Screws, s.Tube.SkyEnd = 60, 3, scope.MM(1300)
	want := strings.NewReplacer(
		`from_primary_mm = 970 # measured twice`, "from_primary_mm = 965 # measured twice\nscrews = 3",
		"  thread = \"M4\"\n", "",
		`notes = "green # 4"   # of the shed`, "notes = \"blue\"   # of the shed\ncheck_days = 60",
	).Replace(byHand) + "\n[tube]\nsky_end_mm = 1300\n"
	assert.Equal(t, want, string(scope.ReviseScope([]byte(byHand), s)))

	inline := "format = 1\nname = \"Heron\"\naperture_mm = 250\nfocal_length_mm = 1200\ntube = { sky_end_mm = 1290 }\n"
	now, err := scope.DecodeScope(scope.ReviseScope([]byte(inline), s))
	require.NoError(t, err, "what cannot be changed line by line is written anew")
	assert.Equal(t, scope.EncodeScope(s), scope.EncodeScope(now))

	flat := "# bought 2019\nclass = \"2\" # on its label\nhole_radius_mm = 3\n"
	k, err := scope.DecodeKit([]byte(flat), "Red box")
	require.NoError(t, err)
	k.Class, k.BeamWidth, k.HoleRadius = "3R", scope.MM(2), scope.Length{}
	assert.Equal(t, "# bought 2019\nclass = \"3R\" # on its label\nformat = 1\nname = \"Red box\"\nbeam_width_mm = 2\n", string(scope.ReviseKit([]byte(flat), k)))
}
