package picture

import (
	"math"

	"gonum.org/v1/gonum/mat"
)

// shade is the ring's shadow on the laser's face: a band, darker than what is
// about it, mm across the beam from the hole, X to the right and Y down.
type shade struct {
	at           Point
	inner, outer float64
	soft         float64 // how wide its edges are: the scale of a logistic step
}

const shadeUnknowns = 5

func (s shade) moved(d [shadeUnknowns]float64) shade {
	return shade{s.at.add(Point{d[0], d[1]}), s.inner + d[2], s.outer + d[3], s.soft + d[4]}
}

// band returns how deep in the band a point is, 0 to 1.
func (s shade) band(q Point) float64 {
	r := q.sub(s.at).len()
	return step((r-s.inner)/s.soft) - step((r-s.outer)/s.soft)
}

func step(x float64) float64 { return 1 / (1 + math.Exp(-x)) }

// lit is a place on the face and its level.
type lit struct {
	q     Point
	level float64
	draw  int
}

const shadeColumns = 9

// columns are what the light there is made of: a spread of light that falls off
// smoothly, and what the band takes of it.
func (s shade) columns(q Point, reach float64) [shadeColumns]float64 {
	x, y := q.X/reach, q.Y/reach
	rr := x*x + y*y
	b := s.band(q)
	return [shadeColumns]float64{1, x, y, rr, rr * rr, b, b * x, b * y, b * rr}
}

// shadeFit is how well a shade goes with the light on the face.
type shadeFit struct {
	shade
	misfit float64 // rms
	depth  float64 // the part of the light that the band takes, about its middle
}

// fitLight returns the fit of least squares for a given shade.
func (s shade) fitLight(on []lit, reach float64, residuals []float64) (shadeFit, bool) {
	normal, right := mat.NewSymDense(shadeColumns, nil), mat.NewVecDense(shadeColumns, nil)
	cols := make([][shadeColumns]float64, len(on))
	var n [shadeColumns][shadeColumns]float64
	var r [shadeColumns]float64
	for i, l := range on {
		c := s.columns(l.q, reach)
		cols[i] = c
		for a := range c {
			r[a] += c[a] * l.level
			for b := a; b < shadeColumns; b++ {
				n[a][b] += c[a] * c[b]
			}
		}
	}
	for a := range n {
		right.SetVec(a, r[a])
		for b := a; b < shadeColumns; b++ {
			v := n[a][b]
			if a == b {
				v += 1e-6 * float64(len(on))
			}
			normal.SetSym(a, b, v)
		}
	}
	var chol mat.Cholesky
	var x mat.VecDense
	if !chol.Factorize(normal) || chol.SolveVecTo(&x, right) != nil {
		return shadeFit{}, false
	}
	f := shadeFit{shade: s}
	var takes, light, weight float64
	for i, l := range on {
		v := l.level
		for a, k := range cols[i] {
			v -= k * x.AtVec(a)
		}
		f.misfit += v * v
		if residuals != nil {
			residuals[i] = v
		}
		b := cols[i][5]
		for a := 0; a < 5; a++ {
			light += b * cols[i][a] * x.AtVec(a)
		}
		for a := 5; a < shadeColumns; a++ {
			takes -= b * cols[i][a] * x.AtVec(a)
		}
		weight += b
	}
	f.misfit = math.Sqrt(f.misfit / float64(len(on)))
	f.depth = takes / math.Max(light, 1e-9)
	return f, weight > 0
}

// refine walks to the shade that goes best with the light.
func (s shade) refine(on []lit, reach float64) (shadeFit, *mat.SymDense, bool) {
	residuals := make([]float64, len(on))
	best, ok := s.fitLight(on, reach, residuals)
	if !ok {
		return best, nil, false
	}
	damp := 1e-3
	var cov *mat.SymDense
	for range 40 {
		j := make([][]float64, shadeUnknowns)
		steps := [shadeUnknowns]float64{0.01, 0.01, 0.01, 0.01, 0.005}
		for a := range j {
			j[a] = make([]float64, len(on))
			var d [shadeUnknowns]float64
			d[a] = steps[a]
			if _, ok := best.moved(d).fitLight(on, reach, j[a]); !ok {
				return best, nil, false
			}
			for i := range j[a] {
				j[a][i] = (j[a][i] - residuals[i]) / steps[a]
			}
		}
		normal, right := mat.NewSymDense(shadeUnknowns, nil), mat.NewVecDense(shadeUnknowns, nil)
		for a := range j {
			sum := 0.0
			for i, r := range residuals {
				sum += j[a][i] * r
			}
			right.SetVec(a, -sum)
			for b := a; b < shadeUnknowns; b++ {
				sum := 0.0
				for i := range residuals {
					sum += j[a][i] * j[b][i]
				}
				normal.SetSym(a, b, sum)
			}
		}
		cov = mat.NewSymDense(shadeUnknowns, nil)
		var plain mat.Cholesky
		if plain.Factorize(normal) && plain.InverseTo(cov) == nil {
			cov.ScaleSym(best.misfit*best.misfit, cov)
		} else {
			cov = nil
		}
		moved := false
		for range 8 {
			damped := mat.NewSymDense(shadeUnknowns, nil)
			damped.CopySym(normal)
			for a := range j {
				damped.SetSym(a, a, normal.At(a, a)*(1+damp)+1e-9)
			}
			var chol mat.Cholesky
			var x mat.VecDense
			if !chol.Factorize(damped) || chol.SolveVecTo(&x, right) != nil {
				return best, cov, false
			}
			d := [shadeUnknowns]float64{x.AtVec(0), x.AtVec(1), x.AtVec(2), x.AtVec(3), x.AtVec(4)}
			try := best.moved(d)
			try.soft = clamp(try.soft, 0.08, 1.5)
			r := make([]float64, len(on))
			next, ok := try.fitLight(on, reach, r)
			if ok && next.misfit < best.misfit && try.inner > 0 && try.outer > try.inner {
				moved = best.misfit-next.misfit > 1e-6*best.misfit
				best, residuals = next, r
				damp = math.Max(damp/5, 1e-6)
				break
			}
			damp *= 5
		}
		if !moved {
			break
		}
	}
	return best, cov, true
}

// misfitWithout returns the misfit of light that has no shadow in it, but is as
// uneven as a spread of light may be.
func misfitWithout(on []lit, reach float64) float64 {
	var cols [][]float64
	levels := mat.NewVecDense(len(on), nil)
	for i, l := range on {
		x, y := l.q.X/reach, l.q.Y/reach
		rr := x*x + y*y
		cols = append(cols, []float64{1, x, y, x * x, x * y, y * y, x * rr, y * rr, rr * rr, x * rr * rr, y * rr * rr, rr * rr * rr, rr * rr * rr * rr})
		levels.SetVec(i, l.level)
	}
	a := mat.NewDense(len(on), len(cols[0]), nil)
	for i, c := range cols {
		a.SetRow(i, c)
	}
	var x, fit mat.VecDense
	if x.SolveVec(a, levels) != nil {
		return 0
	}
	fit.MulVec(a, &x)
	fit.SubVec(levels, &fit)
	return mat.Norm(&fit, 2) / math.Sqrt(float64(len(on)))
}

// shadowFarMM is how far from the hole a shadow is looked for.
const shadowFarMM = 3.5

// findShade searches the face for the shadow and returns how the misfit without
// one compares.
func findShade(on []lit, holeMM, faceMM float64) (best shadeFit, cov *mat.SymDense, without float64, ok bool) {
	var few []lit
	for i := 0; i < len(on); i += max(1, len(on)/400) {
		few = append(few, on[i])
	}
	without = misfitWithout(on, faceMM)
	best.misfit = math.Inf(1)
	found := false
	for x := -shadowFarMM; x <= shadowFarMM; x += 0.7 {
		for y := -shadowFarMM; y <= shadowFarMM; y += 0.7 {
			for inner := holeMM + 0.5; inner < holeMM+3 && math.Hypot(x, y) < shadowFarMM; inner += 0.8 {
				for width := 2.0; width < 4.5; width += 1.1 {
					s := shade{Point{x, y}, inner, inner + width, 0.35}
					f, ok := s.fitLight(few, faceMM, nil)
					if ok && f.depth > 0.03 && f.misfit < best.misfit {
						best, found = f, true
					}
				}
			}
		}
	}
	if !found {
		return best, nil, without, false
	}
	best, cov, ok = best.refine(on, faceMM)
	return best, cov, without, ok
}
