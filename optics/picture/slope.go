package picture

import (
	"math"

	"gonum.org/v1/gonum/mat"
)

// slope is how the laser's slanted face lies in a plane: a point q of the face,
// in mm across the beam from its hole, X to the right and Y down as in a
// picture, is seen at
//
//	At + (Scale·(q + Lean·q.Y·along))/(1 + Near·q)
//
// Seen from straight behind it is seen as it is: what the slant foreshortens is
// what makes it longer than across the beam. From beside that line it leans, and
// its rise is drawn long or short; both go as how far down the slope a point
// is, so that lengths across the slope stay.
type slope struct {
	at        Point
	scale     float64 // px a mm
	leanX     float64
	leanY     float64
	nearX     float64 // 1/mm
	nearY     float64
	bloom     float64 // mm by which what is bright is wider
	turn      float64 // rad by which the slope's rise is turned from the picture's up, anticlockwise
	cov       *mat.SymDense
	plateSeen float64
	holeSeen  float64
}

// seenAt returns where a point of the face is seen, px.
func (s slope) seenAt(q Point) Point {
	q = q.turned(-s.turn) // into the frame in which the slope rises straight up
	far := 1 + s.nearX*q.X + s.nearY*q.Y
	p := Point{s.scale * (q.X + s.leanX*q.Y) / far, s.scale * (q.Y + s.leanY*q.Y) / far}
	return s.at.add(p.turned(s.turn))
}

// faceAt is the inverse of seenAt, mm.
func (s slope) faceAt(p Point) Point {
	d := p.sub(s.at).turned(-s.turn).scale(1 / s.scale)
	// d·(1 + n·q) = M·q, so (M − d nᵀ)·q = d
	a, b := 1-d.X*s.nearX, s.leanX-d.X*s.nearY
	c, e := -d.Y*s.nearX, 1+s.leanY-d.Y*s.nearY
	det := a*e - b*c
	q := Point{(d.X*e - b*d.Y) / det, (a*d.Y - c*d.X) / det}
	return q.turned(s.turn)
}

// turned returns p turned by an angle, anticlockwise as drawn (Y is down).
func (p Point) turned(rad float64) Point {
	sin, cos := math.Sincos(rad)
	return Point{p.X*cos + p.Y*sin, p.Y*cos - p.X*sin}
}

const slopeUnknowns = 8

func (s slope) moved(d *mat.VecDense) slope {
	s.at = s.at.add(Point{d.AtVec(0), d.AtVec(1)})
	s.scale *= 1 + d.AtVec(2)
	s.leanX += d.AtVec(3)
	s.leanY += d.AtVec(4)
	s.nearX += d.AtVec(5)
	s.nearY += d.AtVec(6)
	s.bloom += d.AtVec(7)
	return s
}

// off returns how far outside of its circle a crossing lies, mm.
func (s slope) off(c crossing, holeMM, plateMM float64) float64 {
	r := s.faceAt(c.at).len()
	if c.outer {
		return r - plateMM - s.bloom
	}
	return r - holeMM + s.bloom
}

// fitSlope fits the face to crossings of its hole and of its edge.
func fitSlope(points []crossing, holeMM, plateMM float64, start slope, holeOnly bool) (slope, bool) {
	s := start
	// what is held lightly about nothing: lean and nearness (a picture from 20°
	// beside the line, from no nearer than ten times the plate), bloom
	hold := [slopeUnknowns]float64{0, 0, 0, 0.35, 0.35, 0.1 / plateMM, 0.1 / plateMM, 0.15}
	if holeOnly {
		hold[5], hold[6], hold[7] = 1e-6, 1e-6, 1e-4
	}
	for range 20 {
		residuals := make([]float64, len(points))
		for i, c := range points {
			residuals[i] = s.off(c, holeMM, plateMM)
		}
		least := 0.15 / s.scale
		reach := 4.7 * math.Max(least, 1.483*medianAbs(residuals))
		normal, right := mat.NewSymDense(slopeUnknowns, nil), mat.NewVecDense(slopeUnknowns, nil)
		used := 0
		var squares, weights float64
		for i, c := range points {
			u := residuals[i] / reach
			if math.Abs(u) >= 1 {
				continue
			}
			w := (1 - u*u) * (1 - u*u)
			used++
			squares, weights = squares+w*residuals[i]*residuals[i], weights+w
			j := s.slopes(c, holeMM, plateMM)
			for a := range slopeUnknowns {
				right.SetVec(a, right.AtVec(a)-w*j[a]*residuals[i])
				for b := a; b < slopeUnknowns; b++ {
					normal.SetSym(a, b, normal.At(a, b)+w*j[a]*j[b])
				}
			}
		}
		if used < 24 {
			return s, false
		}
		noise := math.Max(math.Sqrt(squares/weights), least)
		now := [slopeUnknowns]float64{0, 0, 0, s.leanX, s.leanY, s.nearX, s.nearY, s.bloom}
		for a, h := range hold {
			if h > 0 {
				k := noise * noise / (h * h)
				normal.SetSym(a, a, normal.At(a, a)+k)
				right.SetVec(a, right.AtVec(a)-k*now[a])
			}
		}
		var chol mat.Cholesky
		var move mat.VecDense
		if !chol.Factorize(normal) || chol.SolveVecTo(&move, right) != nil {
			return s, false
		}
		s = s.moved(&move)
		s.cov = new(mat.SymDense)
		if chol.InverseTo(s.cov) != nil || !(s.scale > 0) || math.Abs(s.leanX) > 0.6 || math.Abs(s.leanY) > 0.6 {
			return s, false
		}
		s.cov.ScaleSym(noise*noise, s.cov)
		if mat.Norm(&move, 2) < 1e-6 {
			break
		}
	}
	return s, true
}

// slopes returns how the distance of a crossing goes with each unknown.
func (s slope) slopes(c crossing, holeMM, plateMM float64) [slopeUnknowns]float64 {
	var j [slopeUnknowns]float64
	step := [slopeUnknowns]float64{0.01, 0.01, 1e-5, 1e-5, 1e-5, 1e-7, 1e-7, 1e-4}
	d := mat.NewVecDense(slopeUnknowns, nil)
	for a := range j {
		d.SetVec(a, step[a])
		up := s.moved(d).off(c, holeMM, plateMM)
		d.SetVec(a, -step[a])
		j[a] = (up - s.moved(d).off(c, holeMM, plateMM)) / (2 * step[a])
		d.SetVec(a, 0)
	}
	return j
}
