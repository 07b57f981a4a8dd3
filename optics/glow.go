package optics

import "math"

// What is told of the glow round the hole. evenWithinMM is about how far off the
// middle a spot stands whose glow can no longer be called even, and evenSoftMM how
// wide that border is: together they spread a spot whose glow is even by half a
// millimetre an axis (EvenMM), as a halo that is as 1 : 2.3 there. sideRad is how
// well the brighter side is told: half-hours, of an edge that is not sharp.
const (
	evenWithinMM = 0.8
	evenSoftMM   = 0.2
	sideRad      = 15 * math.Pi / 180
)

// A spot of which nothing was believed before stands about the hole's middle with
// this spread, in parts of the hole's radius: one that is brighter on a side is
// then 0.6 of the radius off. One that was believed to stand somewhere may have
// been moved by what nobody saw in strayPart of cases, and by strayMM in all.
const (
	inHolePart = 0.5
	strayPart  = 0.25
	strayMM    = 0.4
)

// InHole returns where a return spot stands that is in the hole, mm: before is what
// was believed of it (nil: nothing). With side nil its glow is even all round, else
// it is brighter toward side, whose length is of no account.
//
// The mean and the covariance are summed over the hole in rings and rays.
func (t Telescope) InHole(before *Belief, side *Tube) Belief {
	const rings, rays = 12, 36
	r := t.Target.HoleRadiusMM
	flat := Belief{Cov: Round(inHolePart * r)}
	sum, mean, square := 0.0, Tube{}, Cov{}
	for i := range rings {
		d := (float64(i) + 0.5) * r / rings
		even := 1 / (1 + math.Exp((d-evenWithinMM)/evenSoftMM))
		for j := range rays {
			s, c := math.Sincos(2 * math.Pi * float64(j) / rays)
			at := Tube{d * c, d * s}
			w := flat.density(at) * d
			if before != nil {
				stray := Belief{At: before.At, Cov: before.Cov.Add(Round(strayMM))}
				w = (strayPart*flat.density(at) + (1-strayPart)*stray.density(at)) * d
			}
			if side == nil {
				w *= even
			} else {
				off := math.Acos(clamp(at.Dot(*side)/(d*side.Len()), -1, 1)) / sideRad
				w *= (1 - even) * math.Exp(-off*off/2)
			}
			sum += w
			mean = mean.Add(at.Scale(w))
			square = square.Add(Cov{XX: w * at.X * at.X, XY: w * at.X * at.Y, YY: w * at.Y * at.Y})
		}
	}
	if sum == 0 {
		return flat
	}
	mean = mean.Scale(1 / sum)
	return Belief{At: mean, Cov: Cov{XX: square.XX/sum - mean.X*mean.X, XY: square.XY/sum - mean.X*mean.Y, YY: square.YY/sum - mean.Y*mean.Y}}
}

// density returns the normal density at p, per mm².
func (b Belief) density(p Tube) float64 {
	d, det := p.Sub(b.At), b.Cov.XX*b.Cov.YY-b.Cov.XY*b.Cov.XY
	if det <= 0 {
		return 0
	}
	return math.Exp(-(d.X*d.X*b.Cov.YY-2*d.X*d.Y*b.Cov.XY+d.Y*d.Y*b.Cov.XX)/(2*det)) / (2 * math.Pi * math.Sqrt(det))
}
