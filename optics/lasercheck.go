package optics

import (
	"errors"
	"math"
)

// LaserLook is one reading of the spot on the primary with the laser turned in
// its holder by TurnedDeg from where it stood first: degrees, clockwise as one
// faces the laser's back and looks into the focuser.
type LaserLook struct {
	TurnedDeg float64
	At        Tube
}

// LaserFit is the circle that the spot makes as the laser is turned:
// p = Centre + R(φ)·Rho, with R(φ) turning X toward Y.
//
// Rho is d + s·S, for a laser out by d at the hole and by the slope s. Centre
// is where the axis it turns about meets the primary. How much of Rho is d
// cannot be seen.
type LaserFit struct {
	Centre, Rho Tube
	Looks       int
	// ResidualMM is the standard deviation of a reading about the circle, an
	// axis; 0 with two looks, which any circle fits.
	ResidualMM float64
	// SigmaMM is the standard deviation of Rho and of Centre, an axis, as the
	// residual has it.
	SigmaMM float64
}

// RadiusMM returns the radius of the circle.
func (f LaserFit) RadiusMM() float64 { return f.Rho.Len() }

// RhoAt returns Rho with the laser turned by deg (see LaserLook).
func (f LaserFit) RhoAt(deg float64) Tube { return turned(f.Rho, deg) }

// turned returns v turned by deg, X toward Y.
func turned(v Tube, deg float64) Tube {
	s, c := math.Sincos(deg * math.Pi / 180)
	return Tube{c*v.X - s*v.Y, s*v.X + c*v.Y}
}

// ErrLaserLooks: the looks do not fix a circle.
var ErrLaserLooks = errors.New("too few angles: read the spot with the laser turned to three or more, a quarter turn apart")

// FitLaser fits the circle to looks at known angles: linear least squares with
// the four unknowns of Centre and Rho. Two angles fix it; from the third on
// there is a residual to judge it by. The only error is ErrLaserLooks.
func FitLaser(looks []LaserLook) (LaserFit, error) {
	// Normal equations, X + iY as one number, with u = exp(iφ):
	//	n·c    + Σu·ρ = Σp
	//	Σu*·c  + n·ρ  = Σu*·p
	n := float64(len(looks))
	var sumU, sumP, sumBack Tube
	for _, k := range looks {
		sumU = sumU.Add(turned(Tube{X: 1}, k.TurnedDeg))
		sumP = sumP.Add(k.At)
		sumBack = sumBack.Add(turned(k.At, -k.TurnedDeg))
	}
	det := n*n - sumU.Dot(sumU)
	if len(looks) < 2 || det < 0.02*n*n { // about 16° between two
		return LaserFit{}, ErrLaserLooks
	}
	conjU := Tube{sumU.X, -sumU.Y}
	fit := LaserFit{
		Centre: sumP.Scale(n).Sub(times(sumU, sumBack)).Scale(1 / det),
		Rho:    sumBack.Scale(n).Sub(times(conjU, sumP)).Scale(1 / det),
		Looks:  len(looks),
	}
	if free := 2*n - 4; free > 0 {
		sum := 0.0
		for _, k := range looks {
			miss := k.At.Sub(fit.Centre).Sub(fit.RhoAt(k.TurnedDeg))
			sum += miss.Dot(miss)
		}
		fit.ResidualMM = math.Sqrt(sum / free)
		fit.SigmaMM = fit.ResidualMM * math.Sqrt(n/det)
	}
	return fit, nil
}

// times multiplies a and b as complex numbers.
func times(a, b Tube) Tube { return Tube{a.X*b.X - a.Y*b.Y, a.X*b.Y + a.Y*b.X} }

// LaserError is how the laser, as it stands now, is out: Rho = d + s·S on the
// primary, and d = Offset at the hole (X along z), nil where it is not known.
// The zero LaserError is a true laser.
type LaserError struct{ Rho, Offset Tube }

// slope returns the beam's slope s against the focuser's axis.
func (e LaserError) slope(pathMM float64) Tube { return e.Rho.Sub(e.Offset).Scale(1 / pathMM) }

// AxisErrorBothHome returns the axis error that is left when such a laser's
// spots are both brought home: d + s·(X − I). The focuser then points d + s·S
// off the primary's middle.
func (t Telescope) AxisErrorBothHome(e LaserError) Tube {
	beyond := t.PathMM() - t.FocalLengthMM // X − I
	return e.Offset.Add(e.slope(t.PathMM()).Scale(beyond))
}

// AxisErrorWith returns the axis error from the raw spots of such a laser:
// AxisError, and what the laser alone adds to it.
func (t Telescope) AxisErrorWith(e LaserError, p, r Tube) Tube {
	return t.AxisError(p, r).Add(t.AxisErrorBothHome(e))
}

// BestReturnWith returns where the return spot of such a laser is best while
// its spot on the primary stands at p: p·S/f + 2ρ·(1 − S/f) − 2d. With p at
// its own goal ρ that is ρ·(2 − S/f) − 2d. It is not the hole: with the
// circle's centre on the middle of the ring and the return in the hole an axis
// error of half of ρ would be left.
func (t Telescope) BestReturnWith(e LaserError, p Tube) Tube {
	k := t.PathMM() / t.FocalLengthMM
	return p.Scale(k).Add(e.Rho.Scale(2 * (1 - k))).Sub(e.Offset.Scale(2))
}

// CircleIgnoredMM returns the radius, on the primary, of a laser's circle that
// is not worth measuring: a third of what the focuser may be out of aim. This
// program's own.
func (t Telescope) CircleIgnoredMM() float64 { return t.AimAllowedMM() / 3 }

// CircleFittedMM returns the largest radius of a circle that is measured and
// allowed for; beyond it the laser or its holder wants mending first.
func (t Telescope) CircleFittedMM() float64 { return t.AimAllowedMM() }

// What the same laser, taken out and put back the same way, may move its spot
// on the primary: up to SeatFineMM nothing is said, up to SeatLimitMM it goes
// into the budget, beyond it the holder is mended first. This program's own.
const (
	SeatFineMM  = 2
	SeatLimitMM = 5
)

// SeatSpreadMM returns the largest distance between any two of the places where
// the spot stood after the laser was put back.
func SeatSpreadMM(places []Tube) float64 {
	most := 0.0
	for i, a := range places {
		for _, b := range places[:i] {
			most = math.Max(most, a.Sub(b).Len())
		}
	}
	return most
}

// LaserFault says what is wrong with a laser in its holder.
type LaserFault string

// LaserTrue: nothing that matters. LaserOff: it points off, always the same
// way, by as much as can be allowed for. LaserBad: by more. HolderLoose: it
// does not come back to where it was, so that nothing can be said of where it
// points.
const (
	LaserTrue   LaserFault = "true"
	LaserOff    LaserFault = "off"
	LaserBad    LaserFault = "bad"
	HolderLoose LaserFault = "holder"
)

// JudgeLaser tells a laser that points off from a holder that does not repeat.
// The first makes a clean circle and comes back to its place; the second
// scatters about any circle and does not. seatMM is SeatSpreadMM, 0 when it
// was not tried.
func (t Telescope) JudgeLaser(fit LaserFit, seatMM float64) LaserFault {
	// Two seats of an error σ an axis lie σ·√π apart in the mean.
	scatterLimit := SeatLimitMM / math.Sqrt(math.Pi)
	switch r := fit.RadiusMM(); {
	case seatMM > SeatLimitMM || fit.ResidualMM > scatterLimit:
		return HolderLoose
	case r > t.CircleFittedMM():
		return LaserBad
	case r > t.CircleIgnoredMM() && r > 2*fit.SigmaMM:
		return LaserOff
	}
	return LaserTrue
}
