package optics

import "math"

// AiryMM returns the radius of the first dark ring of a perfect star image in
// the focal plane: 1.22·λ·F.
func AiryMM(focalRatio, wavelengthNM float64) float64 {
	return 1.22 * wavelengthNM * 1e-6 * focalRatio
}

// AiryArcsec returns the same radius as seen in the sky, 1.22·λ/D: 138.4/D at
// 550 nm.
func (t Telescope) AiryArcsec() float64 {
	return AiryMM(t.FocalRatio(), WavelengthNM) / t.FocalLengthMM * 180 / math.Pi * 3600
}

// DefocusMM returns how far from focus the drawtube stands for a defocus of so
// many waves, peak to valley: 8·F²·n·λ (telescope-optics.net §4.4, eq. 23-25).
// About as many rings are then seen in the star's disc.
func DefocusMM(focalRatio, waves, wavelengthNM float64) float64 {
	return 8 * focalRatio * focalRatio * waves * wavelengthNM * 1e-6
}

// StarMagnitude returns how bright a star is that neither dazzles nor is too
// dim in this aperture when a few waves out of focus: 5·log₁₀D − 8.9, D in mm
// (telescope-optics.net §6.4.1).
func (t Telescope) StarMagnitude() float64 { return 5*math.Log10(t.ApertureMM) - 8.9 }

// StarPower returns the magnification for a look at a star a few waves out of
// focus: 25 times the aperture in inches at the least, 40 to 50 times at best
// (telescope-optics.net §6.4.1).
func (t Telescope) StarPower() (least, from, to float64) {
	inches := t.ApertureMM / 25.4
	return 25 * inches, 40 * inches, 50 * inches
}

// Obstruction returns the width of the secondary, as seen along the tube, over
// the aperture; where it is not known, a quarter, as it mostly is.
func (t Telescope) Obstruction() float64 {
	if t.MinorAxisMM > 0 {
		return t.MinorAxisMM / t.ApertureMM
	}
	return 0.25
}

// StarJudge says how the middle of a disc and of its shadow are found.
type StarJudge float64

// ByEdges: half way between the two edges, along the line on which they are
// farthest from alike, which is what eyes do that compare how thick the light
// is on both sides. ByOutline: the mean of the whole outline.
const (
	ByEdges   StarJudge = 3. / 4
	ByOutline StarJudge = 1. / 2
)

// StarOffset returns by how much the secondary's shadow stands off the middle
// of a star's disc that is so many waves out of focus, as part of the disc's
// width, for an axis error e (mm, X along z) and a star in the middle of the
// field: ¾·W131·(1 − o²)/n by the edges, ½ by the outline, with W131 =
// e/(32·F³) in waves and o the obstruction.
//
// Not a published rule: derived, and held by exact rays in the tests.
//
// The shadow stands toward the axis: toward e. Inside focus the disc is the
// upright picture of the open end, so that something held over the open end, X
// toward the focuser, shows where e points; beyond focus it is upside down.
func (t Telescope) StarOffset(e Tube, waves float64, judge StarJudge) Tube {
	return e.Scale(t.starGain(waves, judge))
}

// AxisErrorFromStar is the inverse of StarOffset, with its covariance.
func (t Telescope) AxisErrorFromStar(offset Belief, waves float64, judge StarJudge) Belief {
	k := 1 / t.starGain(waves, judge)
	return Belief{At: offset.At.Scale(k), Cov: offset.Cov.Scale(k)}
}

// starGain returns the part of the disc's width per mm of axis error.
func (t Telescope) starGain(waves float64, judge StarJudge) float64 {
	o := t.Obstruction()
	w131 := 1 / (32 * cube(t.FocalRatio())) / (WavelengthNM * 1e-6)
	return float64(judge) * w131 * (1 - o*o) / waves
}

// OffsetOfSides returns StarOffset by the edges for a shadow that leaves the
// light on one side thin, as part of what it is on the other: 1, even; 0, the
// shadow touches the edge.
func (t Telescope) OffsetOfSides(thin float64) float64 {
	return (1 - t.Obstruction()) / 2 * (1 - thin) / (1 + thin)
}

// evenSides is the least uneven that an eye tells from even: nine tenths on one
// side of what there is on the other (trainers' judgement).
const evenSides = 0.9

// StarProvesMM returns the largest axis error that would still look even in a
// star so many waves out of focus: no such look can prove less. It grows with
// the waves, so a star far out of focus serves for the coarse step alone.
func (t Telescope) StarProvesMM(waves float64) float64 {
	return t.OffsetOfSides(evenSides) / t.starGain(waves, ByEdges)
}

// StarBelief returns what a look at a star tells of the axis error: the light
// on one side is thin as a part of the other, in the direction toward (of any
// length, X toward the focuser) in which it is thinnest. A part of evenSides or
// more says that the error is within StarProvesMM.
func (t Telescope) StarBelief(thin float64, toward Tube, waves float64) Belief {
	proves := t.StarProvesMM(waves)
	if thin >= evenSides || toward.Len() == 0 {
		return Belief{Cov: Round(proves / rayleigh95)}
	}
	at := toward.Scale(t.OffsetOfSides(thin) / t.starGain(waves, ByEdges) / toward.Len())
	along, across := proves/rayleigh95+starPart*at.Len(), starRad*at.Len()
	return Belief{At: at, Cov: Polar(at, along, across)}
}

// How well eyes read a star's disc, 1σ: how far off its shadow is, as part of
// it, and in which direction, rad (trainers' judgement).
const (
	starPart = 0.2
	starRad  = 0.3
)

// RingOffBy returns how far the centre ring would stand off the mirror's middle
// to explain that the spots, or the shadow, say one axis error and a star
// another: twice the difference. What a beam that leaves beside the focuser's
// axis does looks the same.
func RingOffBy(star, spots Belief) Belief {
	return Belief{At: spots.At.Sub(star.At).Scale(2), Cov: spots.Cov.Add(star.Cov).Scale(2)}
}
