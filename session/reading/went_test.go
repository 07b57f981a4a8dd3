package reading

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"spotward/optics"
	"spotward/session/event"
)

// Which way a spot set off is understood after a move was told, and nothing else
// is taken for it.
func TestWhichWayItSetOff(t *testing.T) {
	c := Context{Tel: readingScope(), Face: optics.FacePrimary, Mirror: optics.Secondary, Told: &event.Told{Moves: []event.ToldMove{
		{Turn: optics.Turn{Mirror: optics.Secondary, Screw: "A", Turns: -0.125}},
		{Turn: optics.Turn{Mirror: optics.Secondary, Screw: "B", Turns: 0.125}},
	}}}
	for text, want := range map[string]struct {
		hour  float64
		label string
	}{
		"went 7": {7, ""}, "went 4:30": {4.5, ""}, "it went toward 7": {7, ""}, "went to half past 4": {4.5, ""},
		"-7": {7, ""}, "-4:30": {4.5, ""}, "went A 7": {7, "A"}, "went b to 12": {0, "B"}, "set off low right": {4.5, ""},
	} {
		s, err := Parse(text, c)
		require.NoError(t, err, text)
		assert.Equal(t, SaidWent, s.Kind, text)
		assert.InDelta(t, want.hour, s.At.Hour(), 1e-9, text)
		assert.Equal(t, want.label, s.Label, text)
	}
	for _, text := range []string{"went", "-13", "-7 3", "went 7 12", "went C"} {
		s, err := Parse(text, c)
		assert.False(t, err == nil && s.Kind == SaidWent, text)
	}
	c.Told = nil
	s, err := Parse("went 7", c)
	assert.False(t, err == nil && s.Kind == SaidWent, "nothing was told to be turned")
}
