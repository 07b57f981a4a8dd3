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

// Focus is a side of focus on which a star is looked at: the drawtube racked in
// from focus, or out.
type Focus string

// The two sides. Inside focus the disc is the upright picture of the open end;
// beyond it is upside down.
const (
	InsideFocus Focus = "inside"
	BeyondFocus Focus = "beyond"
)

// upright returns +1 where the picture of the open end is upright, else −1.
func (f Focus) upright() float64 {
	if f == BeyondFocus {
		return -1
	}
	return 1
}

// StarOffset returns by how much the dark spot stands off the middle of a star's
// disc, as part of the disc's width. The star is in the middle of the field and
// so many waves out of focus. e is the axis error (mm, X along z); glass is where
// the secondary's middle stands, seen along the tube, from the tube's axis (mm).
// The offset has the field's directions: those of e.
//
// Two things add up. Coma moves the spot toward the axis, by ¾·W131·(1 − o²)/n
// half way between the edges, on either side of focus alike: W131 = e/(32·F³) in
// waves, o the obstruction, n the waves out of focus. The glass stands L before
// the primary and the star's light comes in at 2·e/f, so that the glass's outline
// on the primary stands at glass − 2·L·e/f. That over D is the rest. It is
// upright inside focus and upside down beyond.
//
// A spot left on the primary, p, moves the outline by (f − L)/f·p more; on the
// two sides of focus that cancels. Not a published rule: derived by hand, and
// held to 0.5 % by rays that POV-Ray traced
// (testdata/published/star_shadow.pov).
func (t Telescope) StarOffset(e, glass Tube, waves float64, focus Focus) Tube {
	outline := glass.Sub(e.Scale(t.starLean()))
	return e.Scale(t.comaGain(waves)).Add(outline.Scale(focus.upright() / t.ApertureMM))
}

// comaGain returns by what part of the disc's width coma alone moves the dark
// spot for each mm of axis error.
func (t Telescope) comaGain(waves float64) float64 {
	o := t.Obstruction()
	w131 := 1 / (32 * cube(t.FocalRatio())) / (WavelengthNM * 1e-6)
	return 3. / 4 * w131 * (1 - o*o) / waves
}

// starLean returns by how many mm the glass's outline on the primary goes away
// from the axis for each mm of axis error.
func (t Telescope) starLean() float64 { return 2 * t.FromPrimaryMM / t.FocalLengthMM }

// AxisErrorFromStar returns what the dark spot's offsets on both sides of focus,
// at equal waves, tell of the axis error: half their sum over what coma does. The
// glass and the side of focus cancel. Both looks are by the same eyes, so that
// the two are no surer than one.
func (t Telescope) AxisErrorFromStar(inside, beyond Belief, waves float64) Belief {
	k := 1 / t.comaGain(waves)
	return Belief{
		At:  inside.At.Add(beyond.At).Scale(k / 2),
		Cov: bothLooks(inside, beyond).Scale(k),
	}
}

// GlassFromStar returns what the same two offsets tell of where the secondary's
// middle stands, seen along the tube, from the tube's axis, mm: half their
// difference is the glass's outline. Compare it with GlassPlace.
func (t Telescope) GlassFromStar(inside, beyond Belief, waves float64) Belief {
	e, d := t.AxisErrorFromStar(inside, beyond, waves), t.ApertureMM
	return Belief{
		At:  inside.At.Sub(beyond.At).Scale(d / 2).Add(e.At.Scale(t.starLean())),
		Cov: bothLooks(inside, beyond).Scale(d).Add(e.Cov.Scale(t.starLean())),
	}
}

// bothLooks returns how sure half the sum or difference of two looks by the same
// eyes is: as sure as one of them.
func bothLooks(a, b Belief) Cov { return a.Cov.Add(b.Cov).Scale(math.Sqrt2 / 2) }

// GlassPlace returns where the secondary's middle belongs, seen along the tube,
// from the tube's axis: away from the focuser, by about A/(4F) (PlaceOfSecondary).
func (t Telescope) GlassPlace() Tube { return Tube{X: -t.PlaceOfSecondary().OffsetMM} }

// GlassOff returns how far the secondary's middle stands from GlassPlace, by what a
// star told of it (GlassFromStar), and whether that is more than eyes may err by, in
// 95 of 100.
func (t Telescope) GlassOff(glass Belief) (off Belief, told bool) {
	off = Belief{At: glass.At.Sub(t.GlassPlace()), Cov: glass.Cov}
	m, long, short := off.principal()
	return off, math.Hypot(m.X/long, m.Y/short) > rayleigh95
}

// OffsetOfSides returns the offset of a dark spot that leaves the light on one
// side thin, as part of what it is on the other: 1, even; 0, the spot touches the
// edge.
func (t Telescope) OffsetOfSides(thin float64) float64 {
	return (1 - t.Obstruction()) / 2 * (1 - thin) / (1 + thin)
}

// evenSides: light that is thicker than four fifths of the other side's looks
// even. This program's own.
const evenSides = 0.8

// StarProvesMM returns the largest axis error with which a star so many waves out
// of focus may still look even on both sides of focus: no such look proves less.
// It grows with the waves, so a star far out of focus serves for the coarse step
// alone.
func (t Telescope) StarProvesMM(waves float64) float64 {
	return t.OffsetOfSides(evenSides) / t.comaGain(waves)
}

// StarLook is what was seen of a star on one side of focus.
type StarLook struct {
	Thin float64 // the light where it is thinnest, as part of what it is on the other side; 1: even
	// Finger is where a finger over the rim of the open end shows in the thinnest
	// light, from the tube's axis, X toward the focuser; of any length. The zero
	// Finger: the light is even.
	Finger Tube
}

// OffsetSeen returns the dark spot's offset (see StarOffset) as a person's look
// on one side of focus tells it. Light on one side that is thicker than evenSides
// of the other looks even.
func (t Telescope) OffsetSeen(look StarLook, focus Focus) Belief {
	even := t.OffsetOfSides(evenSides) / rayleigh95
	if look.Thin > evenSides || look.Finger.Len() == 0 {
		return Belief{Cov: Round(even)}
	}
	// The finger shows in the field where it is inside focus, and on the other
	// side beyond.
	off := t.OffsetOfSides(look.Thin)
	at := look.Finger.Scale(focus.upright() * off / look.Finger.Len())
	return Belief{At: at, Cov: Polar(at, even+starPart*off, math.Max(even, starRad*off))}
}

// LooksEven reports whether an offset (see StarOffset) leaves light that looks even.
func (t Telescope) LooksEven(offset Tube) bool { return offset.Len() < t.OffsetOfSides(evenSides)/2 }

// How well eyes read a star's disc, 1σ: how far off the dark spot is, as part of
// it, and in which direction, rad. This program's own.
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
