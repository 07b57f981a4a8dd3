package schematic

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"spotward/views/theme"
)

func wholeTelescope() PartsSpec {
	return PartsSpec{
		Section: PathSpec{TubeMM: 115, SkyEndMM: 1220, MirrorMM: 100, SecondaryMM: 25, FoldMM: 1000, HoleMM: 215},
		Laser:   "laser", Focuser: "focuser", Secondary: "secondary", SecondaryScrews: "screws", Card: "card", Primary: "primary", Ring: "ring", Screw: "screw", Lock: "lock",
		SkyEnd: "sky end", Behind: "behind",
	}
}

// Every part has its word, whole, however small the window.
func TestPartsAreAllNamed(t *testing.T) {
	for _, size := range [][2]int{{58, 11}, {78, 14}, {100, 20}} {
		for _, glyphs := range []Glyphs{Braille, ASCII} {
			c := New(size[0], size[1], Options{Glyphs: glyphs})
			spec := wholeTelescope()
			c.Parts(Rect{W: size[0], H: size[1]}, spec)
			drawn := c.String(theme.New(theme.Dark, theme.Plain))
			for _, word := range []string{spec.Laser, spec.Focuser, spec.Secondary, spec.SecondaryScrews, spec.Card, spec.Primary, spec.Ring, spec.Screw, spec.Lock, spec.SkyEnd, spec.Behind} {
				assert.Contains(t, drawn, word, "%v\n%s", size, drawn)
			}
		}
	}
}
