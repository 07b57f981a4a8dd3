package optics

import "math"

// Use is what the scope is used for. Empty counts as AllRound.
type Use string

// The uses, from the widest allowance to the narrowest.
const (
	LowPower Use = "low-power"
	AllRound Use = "all-round"
	Planets  Use = "planets"
)

// WavelengthNM is the light that figures are for unless another is told: green.
const WavelengthNM = 550

// Coma is what an axis error does to the image in the middle of the field.
type Coma struct {
	PVWaves  float64 // peak to valley at best focus and tilt
	RMSWaves float64
	Strehl   float64 // 1 = perfect
}

// ComaAt returns the coma of a paraboloid of focal ratio F whose axis misses
// by errorMM in the focal plane, in waves of wavelengthNM.
//
// Peak to valley e/(48·F³), rms that over √32 (telescope-optics.net §8.1.1,
// eq. 70; the same as W131 = e/(32·F³), rms W131/√72); Strehl exp(−(2π·rms)²)
// (Mahajan, JOSA 72, 1258 (1982)).
func ComaAt(focalRatio, errorMM, wavelengthNM float64) Coma {
	pv := errorMM / (48 * cube(focalRatio)) / (wavelengthNM * 1e-6)
	rms := pv / math.Sqrt(32)
	return Coma{PVWaves: pv, RMSWaves: rms, Strehl: math.Exp(-math.Pow(2*math.Pi*rms, 2))}
}

// Coma returns ComaAt for this telescope, in green light.
func (t Telescope) Coma(errorMM float64) Coma {
	return ComaAt(t.FocalRatio(), errorMM, WavelengthNM)
}

func cube(v float64) float64 { return v * v * v }

// ComaFreeMM returns the radius in the focal plane within which coma alone
// leaves a Strehl of 0.80: F³/90 mm at 550 nm (telescope-optics.net §8.1.1,
// eq. 70.2).
func (t Telescope) ComaFreeMM() float64 { return cube(t.FocalRatio()) / 90 }

// CarefulMM returns the axis error that careful people allow: 0.005·F³ mm,
// 0.45 of ComaFreeMM. A published amateur guide's rule; where it is from the guide's
// abstract, which alone was seen, does not say.
func (t Telescope) CarefulMM() float64 { return 0.005 * cube(t.FocalRatio()) }

// AllowedMM returns the axis error allowed for a use:
//
//	low-power  F³/90      Strehl 0.80: where high power begins to show coma
//	all-round  0.005·F³   Strehl 0.96: the rule of CarefulMM
//	planets    0.003·F³   Strehl 0.98: this program's own choice
//
// With a coma corrector the rest of the field no longer hides what is wrong in
// its middle, so that low power gets no more than all-round.
func (t Telescope) AllowedMM(use Use) float64 {
	switch {
	case use == Planets:
		return 0.003 * cube(t.FocalRatio())
	case use == LowPower && !t.Corrector:
		return t.ComaFreeMM()
	}
	return t.CarefulMM()
}

// AimAllowedMM returns how far off the primary's middle the focuser may point:
// 3 % of the aperture, 0.5 % with a coma corrector (the guide of CarefulMM).
func (t Telescope) AimAllowedMM() float64 {
	if t.Corrector {
		return 0.005 * t.ApertureMM
	}
	return 0.03 * t.ApertureMM
}

// EyesMM is how near the middle of ring or hole a practised eye can tell a spot
// to be, and LeastGoalMM the smallest distance worth asking for (trainers'
// judgement).
const (
	EyesMM      = 0.7
	LeastGoalMM = 1.0
)

// GoalOnPrimary returns where the spot on the primary is wanted with a true
// laser. What is left there costs half of itself in the focal plane, so twice
// the allowance counts as there; never more than the centre ring or what the
// focuser may be out of aim, never less than LeastGoalMM.
func (t Telescope) GoalOnPrimary(use Use) Goal {
	mm := math.Min(2*t.AllowedMM(use), t.AimAllowedMM())
	return Goal{InsideMM: goalMM(mm, t.RingInnerMM)}
}

// GoalOnTargetWith returns where the return spot is wanted with a laser that is
// out by e (zero: a true one) while the spot on the primary stands at p: about
// the best place for it (BestReturnWith), which is taken to be the hole itself
// as long as no eye could tell the two apart. What is left there costs half of
// itself times f/S.
// The goal on the primary is then GoalOnPrimary moved to Rho.
func (t Telescope) GoalOnTargetWith(e LaserError, use Use, p Tube) Goal {
	goal := Goal{InsideMM: goalMM(2*t.AllowedMM(use)*t.PathMM()/t.FocalLengthMM, t.Target.HoleRadiusMM)}
	if best := t.BestReturnWith(e, p); best.Len() > EyesMM {
		goal.At = best
	}
	return goal
}

// goalMM returns mm, but no more than the mark (ring or hole; 0 = none) and no
// less than is worth asking for.
func goalMM(mm, mark float64) float64 {
	if mark > 0 {
		mm = math.Min(mm, mark)
	}
	return math.Max(mm, LeastGoalMM)
}
