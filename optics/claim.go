package optics

// Grade is what a claim about the axis error earns.
type Grade string

// The grades, the best first. GradeNote: a finer check is due.
const (
	GradeReady    Grade = "ready"
	GradeLowPower Grade = "ready_low_power"
	GradeNote     Grade = "with_note"
)

// How likely it must be that the axis error is within what is allowed, and within
// the edge of the coma-free field, for a grade. This program's own.
const (
	ReadyWithin      = 0.7
	ReadyComaFree    = 0.97
	LowPowerComaFree = 0.9
)

// ReadyAtBest is how likely the axis error must be within what is allowed, had it
// been found to be nothing, for GradeReady: what is known less well than that passes
// ReadyWithin only where the last look erred toward it. At f/5 and faster ring and
// laser have to be settled for it. This program's own.
const ReadyAtBest = 0.8

// Claim is what may be said of the axis error. The zero Claim says nothing.
type Claim struct {
	Error     Belief  // mm in the focal plane, with all that is not known of it
	AboutMM   float64 // its median
	AtMostMM  float64 // it is within this in 95 of 100
	AllowedMM float64
	Within    float64 // how likely it is within AllowedMM
	ComaFree  float64 // how likely it is within the edge of the coma-free field
}

// Claim returns what a belief about the axis error comes to. The belief carries
// every error: ClaimFrom makes it from two spots.
func (t Telescope) Claim(use Use, e Belief) Claim {
	c := t.chances(use, e)
	c.AboutMM, c.AtMostMM = e.WithinMM(0.5), e.WithinMM(0.95)
	return c
}

// chances returns what a grade needs of a claim: without its distances, a tenth of
// the work.
func (t Telescope) chances(use Use, e Belief) Claim {
	allowed := t.AllowedMM(use)
	return Claim{Error: e, AllowedMM: allowed, Within: e.ChanceWithin(allowed), ComaFree: e.ChanceWithin(t.ComaFreeMM())}
}

// atBest returns how likely the axis error would be within what is allowed if it had
// been found, no better than it is known, to be nothing.
func (c Claim) atBest() float64 { return Belief{Cov: c.Error.Cov}.ChanceWithin(c.AllowedMM) }

// Grade returns what the claim earns.
func (c Claim) Grade() Grade {
	switch {
	case c.Within >= ReadyWithin && c.ComaFree >= ReadyComaFree && c.atBest() >= ReadyAtBest:
		return GradeReady
	case c.ComaFree >= LowPowerComaFree:
		return GradeLowPower
	}
	return GradeNote
}

// ClaimFrom returns what the two spots as read say of the axis error, with a
// laser that is out by aims. Beside the readings' errors it carries where ring
// and laser may truly stand: m says how well that is known.
func (t Telescope) ClaimFrom(m Method, aims LaserError, p, r Belief) Claim {
	return t.Claim(m.Use, t.axisErrorOf(m, aims, p, r))
}

// ChancesFrom returns the same without the distances: what a grade needs.
func (t Telescope) ChancesFrom(m Method, aims LaserError, p, r Belief) Claim {
	return t.chances(m.Use, t.axisErrorOf(m, aims, p, r))
}

// axisErrorOf returns the belief of the axis error, mm, that a claim is made of.
func (t Telescope) axisErrorOf(m Method, aims LaserError, p, r Belief) Belief {
	e := t.AxisErrorBelief(p, r)
	e.At = t.AxisErrorWith(aims, p.At, r.At)
	e.Cov = e.Cov.Add(Round(m.ringSigmaMM() / 2)).Add(Round(m.laserSigmaMM() * t.FocalLengthMM / t.PathMM()))
	return e
}

// ringSigmaMM returns how far the ring may stand off the mirror's middle, 1σ an
// axis, mm. laserSigmaMM the same of the laser's hole off the focuser's axis.
func (m Method) ringSigmaMM() float64  { return orGuess(m.RingPlacedMM, RingPlacedGuessMM) }
func (m Method) laserSigmaMM() float64 { return orGuess(m.LaserOffsetMM, LaserOffsetGuessMM) }

// Together returns what two independent readings of the same place say together,
// and false where they do not agree: more than agreeSigmas apart in their own
// errors.
func (b Belief) Together(c Belief) (Belief, bool) {
	sum := b.Cov.Add(c.Cov)
	det := sum.XX*sum.YY - sum.XY*sum.XY
	if det <= 0 {
		return c, false
	}
	inv := Cov{XX: sum.YY / det, XY: -sum.XY / det, YY: sum.XX / det}
	d := c.At.Sub(b.At)
	if d.Dot(inv.of(d)) > agreeSigmas*agreeSigmas {
		return c, false
	}
	// K = B·(B + C)⁻¹; the mean moves by K·d, and the covariance is B − K·B.
	move := b.Cov.of(inv.of(d))
	x, y := b.Cov.of(inv.of(b.Cov.of(Tube{X: 1}))), b.Cov.of(inv.of(b.Cov.of(Tube{Y: 1})))
	return Belief{At: b.At.Add(move), Cov: Cov{XX: b.Cov.XX - x.X, XY: b.Cov.XY - (x.Y+y.X)/2, YY: b.Cov.YY - y.Y}}, true
}

// agreeSigmas is how far apart two readings of one place may be: 95 of 100 of
// those that agree are nearer.
const agreeSigmas = rayleigh95

// of returns the covariance, as a matrix, times v.
func (c Cov) of(v Tube) Tube { return Tube{c.XX*v.X + c.XY*v.Y, c.XY*v.X + c.YY*v.Y} }
