package picture

import (
	"math"
	"slices"

	"gonum.org/v1/gonum/mat"
)

// pairFit is a pair of concentric circles as it lies in a plane: seen a little
// aslant, so that it is an ellipse whose radius goes as 1 + A·cos 2θ + B·sin 2θ.
type pairFit struct {
	at           Point
	inner, outer float64 // mean radii, px
	scale        float64 // px a mm, from both: what blooms makes one larger and the other smaller
	widthMM      float64 // of the band, as it is known
	a, b         float64
	rms          float64 // of the crossings that were used, px
	cov          *mat.SymDense
	used         []crossing
}

// slantSigma is how far a and b stray: cos 6° takes 0.3 % off either side.
const slantSigma = 0.004

// fitPair fits a pair of circles to crossings, those that lie off weighing less
// and less (J. W. Tukey's biweight), by least squares of the distances along the
// rays.
func fitPair(points []crossing, innerMM, outerMM float64, start pairFit) (pairFit, bool) {
	f := start
	f.widthMM = outerMM - innerMM
	for range 12 {
		var residuals []float64
		for _, c := range points {
			residuals = append(residuals, f.off(c, innerMM, outerMM))
		}
		reach := 4.7 * math.Max(0.15, 1.483*medianAbs(residuals))
		next, ok := f.step(points, residuals, reach, innerMM, outerMM)
		if !ok {
			return f, false
		}
		moved := next.at.sub(f.at).len() + math.Abs(next.outer-f.outer)
		f = next
		if moved < 1e-4*f.outer {
			break
		}
	}
	return f, len(f.used) >= 12 && f.scale > 0
}

// off returns how far outside of the fit a crossing lies, px.
func (f pairFit) off(c crossing, innerMM, outerMM float64) float64 {
	away := c.at.sub(f.at)
	theta := math.Atan2(away.Y, away.X)
	r := f.inner
	if c.outer {
		r = f.outer
	}
	return away.len() - r*(1+f.a*math.Cos(2*theta)+f.b*math.Sin(2*theta))
}

// step returns the fit after one step of Gauss and Newton. The unknowns are the
// middle, the scale, how far the edge blooms, and the two of the slant.
func (f pairFit) step(points []crossing, residuals []float64, reach, innerMM, outerMM float64) (pairFit, bool) {
	const unknowns = 6
	normal, right := mat.NewSymDense(unknowns, nil), mat.NewVecDense(unknowns, nil)
	next := f
	next.used = nil
	var squares, weights float64
	for i, c := range points {
		u := residuals[i] / reach
		if math.Abs(u) >= 1 {
			continue
		}
		w := (1 - u*u) * (1 - u*u)
		next.used = append(next.used, c)
		squares, weights = squares+w*residuals[i]*residuals[i], weights+w
		away := c.at.sub(f.at)
		theta := math.Atan2(away.Y, away.X)
		mm, bloom, r := innerMM, -1.0, f.inner
		if c.outer {
			mm, bloom, r = outerMM, 1, f.outer
		}
		j := [unknowns]float64{away.X / away.len(), away.Y / away.len(), mm, bloom, r * math.Cos(2*theta), r * math.Sin(2*theta)}
		for a := range unknowns {
			right.SetVec(a, right.AtVec(a)+w*j[a]*residuals[i])
			for b := a; b < unknowns; b++ {
				normal.SetSym(a, b, normal.At(a, b)+w*j[a]*j[b])
			}
		}
	}
	if len(next.used) < 12 {
		return f, false
	}
	next.rms = math.Sqrt(squares / weights)
	noise := math.Max(next.rms, 0.1)
	for i, was := range [2]float64{f.a, f.b} { // they are small, whatever the crossings say
		hold := noise * noise / (slantSigma * slantSigma)
		normal.SetSym(4+i, 4+i, normal.At(4+i, 4+i)+hold)
		right.SetVec(4+i, right.AtVec(4+i)-hold*was)
	}
	var chol mat.Cholesky
	if !chol.Factorize(normal) {
		return f, false
	}
	var move mat.VecDense
	if chol.SolveVecTo(&move, right) != nil {
		return f, false
	}
	next.at = f.at.add(Point{move.AtVec(0), move.AtVec(1)})
	next.scale += move.AtVec(2)
	next.inner += innerMM*move.AtVec(2) - move.AtVec(3)
	next.outer += outerMM*move.AtVec(2) + move.AtVec(3)
	next.a += move.AtVec(4)
	next.b += move.AtVec(5)
	next.cov = new(mat.SymDense)
	if chol.InverseTo(next.cov) != nil {
		return f, false
	}
	next.cov.ScaleSym(noise*noise, next.cov)
	return next, next.inner > 1 && next.outer > next.inner
}

func medianAbs(v []float64) float64 {
	a := make([]float64, len(v))
	for i, x := range v {
		a[i] = math.Abs(x)
	}
	if len(a) == 0 {
		return 0
	}
	slices.Sort(a)
	return a[len(a)/2]
}

func median(v []float64) float64 {
	if len(v) == 0 {
		return 0
	}
	a := slices.Clone(v)
	slices.Sort(a)
	return a[len(a)/2]
}
