package optics

import "math"

// SecondaryPlace is what secondary a telescope asks for, and where.
type SecondaryPlace struct {
	MinorMM float64 // minor axis: its width as seen along the tube
	MajorMM float64
	// OffsetMM is how far the middle of the glass is from where the two axes
	// meet: so much toward the primary, and as much away from the focuser.
	OffsetMM float64
}

// SecondaryFor returns the least secondary at 45° that lights a field of fieldMM
// (diameter in the focal plane) fully, and its offset, by the rays from the
// primary's edge: GNU Goptical design library, telescope_newton.cc,
// calc_secondary.
func (t Telescope) SecondaryFor(fieldMM float64) SecondaryPlace {
	D, f, toFocus := t.ApertureMM, t.FocalLengthMM, t.toFocusMM()
	c := f - D*D/(16*f) // edge of the primary to the focal plane, along the tube
	b := D - fieldMM
	l := fieldMM*c + toFocus*b
	m, n := 2*c-b, 2*c+b
	sum, diff := l/m+l/n, l/m-l/n
	return SecondaryPlace{
		MinorMM:  math.Sqrt(sum*sum - diff*diff),
		MajorMM:  math.Sqrt2 * sum,
		OffsetMM: diff / 2,
	}
}

// toFocusMM returns I = f − L, the tube's axis to the focal plane.
func (t Telescope) toFocusMM() float64 { return t.FocalLengthMM - t.FromPrimaryMM }

// FullyLitMM returns the diameter in the focal plane that this secondary lights
// fully: (A·f − I·D)/(f − I) (telescope-optics.net §8.1.3; the same in GNU
// Goptical); 0 if it does not even the middle.
func (t Telescope) FullyLitMM() float64 {
	return math.Max(0, (t.MinorAxisMM*t.FocalLengthMM-t.toFocusMM()*t.ApertureMM)/t.FromPrimaryMM)
}

// PlaceOfSecondary returns where the telescope's own secondary belongs: as
// SecondaryFor the field it lights fully.
func (t Telescope) PlaceOfSecondary() SecondaryPlace { return t.SecondaryFor(t.FullyLitMM()) }

// TurnedMM returns how far a secondary that is turned about the tube by deg
// sends the spot on the primary, straight across the focuser's direction:
// L·sin deg, exactly.
func (t Telescope) TurnedMM(deg float64) float64 {
	return t.FromPrimaryMM * math.Sin(deg*math.Pi/180)
}

// What is asked of the secondary's place, beyond which it is a trained person's
// job and not the screws' (trainers' judgement): along its stalk, and about the
// tube. A slip of a few mm costs light at one edge of the field and nothing of
// the alignment.
const (
	SlipFineMM    = 2
	TurnedFineDeg = 2
)
