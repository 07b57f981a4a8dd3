package optics

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

func TestPublishedBeamRadius(t *testing.T) {
	for _, row := range published(t, "beamwidth.csv") {
		wavelength := number(t, row[1]) * 1e-6
		got := waist(number(t, row[0]), wavelength).travel(1000 * number(t, row[2])).radiusMM(wavelength)
		assert.InDelta(t, number(t, row[3]), got, 1e-4, row)
	}
}

// A beam whose waist lies a focal length before a lens has its next waist a
// focal length behind it, of λf/(πw₀).
func TestTheReturnIsFocused(t *testing.T) {
	scope := tenInch()
	scope.HoleFromAxisMM = scope.FocalLengthMM - scope.FromPrimaryMM
	for beam, radius := range map[float64]float64{1: 0.494, 2: 0.247, 3: 0.165} {
		scope.Target.BeamWidthMM = beam
		assert.InDelta(t, radius, scope.ReturnRadiusMM(), 1e-3)
	}
}

func TestVanishing(t *testing.T) {
	tests := []struct {
		hole, beam, within float64
		dark               bool
	}{{3, 2, 2.5, true}, {3, 1.5, 2.34, true}, {0.8, 1, 0.8, false}, {3, 0, 3, false}}
	for _, tt := range tests {
		scope := tenInch()
		scope.Target = Target{HoleRadiusMM: tt.hole, BeamWidthMM: tt.beam}
		got, dark := scope.VanishesWithinMM()
		assert.Equal(t, tt.dark, dark, tt)
		assert.InDelta(t, tt.within, got, 0.02, tt)
	}
}
