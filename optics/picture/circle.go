package picture

import (
	"errors"
	"math"
)

// Point is a place in a picture, px: X to the right, Y down, from the middle of
// the upper left pixel.
type Point struct{ X, Y float64 }

func (p Point) add(q Point) Point     { return Point{p.X + q.X, p.Y + q.Y} }
func (p Point) sub(q Point) Point     { return Point{p.X - q.X, p.Y - q.Y} }
func (p Point) scale(k float64) Point { return Point{k * p.X, k * p.Y} }
func (p Point) dot(q Point) float64   { return p.X*q.X + p.Y*q.Y }
func (p Point) len() float64          { return math.Hypot(p.X, p.Y) }

// Circle is a circle fitted to points of its edge, px. Three points always lie
// on one, so RMS says something from the fourth on.
type Circle struct {
	Centre Point
	Radius float64
	RMS    float64 // of the points' distances from the circle
}

// ErrCircle: the points do not fix a circle.
var ErrCircle = errors.New("these points do not lie on a circle")

// FitTaubin returns the algebraic fit under Taubin's constraint (G. Taubin,
// IEEE Trans. PAMI 13, 1115 (1991)): nearly unbiased, and the start of
// FitGeometric.
func FitTaubin(points []Point) (Circle, error) {
	m, err := momentsOf(points)
	if err != nil {
		return Circle{}, err
	}
	a := m.constraint()
	x := smallestRoot([]float64{a[0], a[1], -3*m.z*m.z - m.zz, 4 * m.z})
	return m.circle(points, x, 0)
}

// FitGeometric returns the circle of least squares of the points' true
// distances from it, by Gauss-Newton steps from FitTaubin.
func FitGeometric(points []Point) (Circle, error) {
	c, err := FitTaubin(points)
	if err != nil {
		return c, err
	}
	for range 100 {
		step, ok := c.geometricStep(points)
		if !ok {
			return Circle{}, ErrCircle
		}
		c = circleAbout(points, c.Centre.add(step))
		if step.len() < 1e-12*(1+c.Radius) {
			break
		}
	}
	return c, nil
}

// geometricStep returns the Gauss-Newton step of the centre, the radius being
// always the mean distance.
func (c Circle) geometricStep(points []Point) (Point, bool) {
	n := float64(len(points))
	var mean Point // of the unit vectors from the centre
	for _, p := range points {
		mean = mean.add(unit(p.sub(c.Centre)).scale(1 / n))
	}
	var xx, xy, yy float64
	var right Point
	for _, p := range points {
		away := p.sub(c.Centre)
		j := unit(away).sub(mean)
		xx, xy, yy = xx+j.X*j.X, xy+j.X*j.Y, yy+j.Y*j.Y
		right = right.add(j.scale(away.len() - c.Radius))
	}
	det := xx*yy - xy*xy
	if !(det > 1e-12) {
		return Point{}, false
	}
	return Point{yy*right.X - xy*right.Y, xx*right.Y - xy*right.X}.scale(1 / det), true
}

func unit(v Point) Point {
	if n := v.len(); n > 0 {
		return v.scale(1 / n)
	}
	return Point{}
}

// circleAbout returns the circle about a centre with the mean distance of the
// points as its radius.
func circleAbout(points []Point, centre Point) Circle {
	c := Circle{Centre: centre}
	for _, p := range points {
		c.Radius += p.sub(centre).len() / float64(len(points))
	}
	c.RMS = c.rms(points)
	return c
}

func (c Circle) rms(points []Point) float64 {
	sum := 0.0
	for _, p := range points {
		d := p.sub(c.Centre).len() - c.Radius
		sum += d * d
	}
	return math.Sqrt(sum / float64(len(points)))
}

// moments are the means of products of the points' coordinates about their
// middle, with z = x² + y²; det = xx·yy − xy² (N. Chernov, Circular and Linear
// Regression (2010), ch. 5; from memory).
type moments struct {
	middle                 Point
	xx, xy, yy, xz, yz, zz float64
	z, det                 float64
}

func momentsOf(points []Point) (moments, error) {
	var m moments
	n := float64(len(points))
	for _, p := range points {
		m.middle = m.middle.add(p.scale(1 / n))
	}
	for _, p := range points {
		d := p.sub(m.middle)
		z := d.dot(d)
		m.xx, m.xy, m.yy = m.xx+d.X*d.X/n, m.xy+d.X*d.Y/n, m.yy+d.Y*d.Y/n
		m.xz, m.yz, m.zz = m.xz+d.X*z/n, m.yz+d.Y*z/n, m.zz+z*z/n
	}
	m.z = m.xx + m.yy
	m.det = m.xx*m.yy - m.xy*m.xy
	if len(points) < 3 || !(m.det > 1e-9*m.z*m.z) {
		return m, ErrCircle
	}
	return m, nil
}

// constraint returns the two lowest coefficients of the characteristic
// polynomial, which Pratt's and Taubin's fits share.
func (m moments) constraint() [2]float64 {
	return [2]float64{
		m.xz*m.xz*m.yy + m.yz*m.yz*m.xx - 2*m.xz*m.yz*m.xy - (m.zz-m.z*m.z)*m.det,
		(m.zz-m.z*m.z)*m.z + 4*m.det*m.z - m.xz*m.xz - m.yz*m.yz,
	}
}

// circle returns the circle that belongs to the root x of the characteristic
// polynomial; extra is what the fit adds to the square of the radius.
func (m moments) circle(points []Point, x, extra float64) (Circle, error) {
	det := m.det - x*m.z + x*x
	if det == 0 {
		return Circle{}, ErrCircle
	}
	a := (m.xz*(m.yy-x) - m.yz*m.xy) / (2 * det)
	b := (m.yz*(m.xx-x) - m.xz*m.xy) / (2 * det)
	c := Circle{Centre: m.middle.add(Point{a, b}), Radius: math.Sqrt(a*a + b*b + m.z + extra)}
	c.RMS = c.rms(points)
	return c, nil
}

// smallestRoot returns the smallest root ≥ 0 of the polynomial with these
// coefficients, the constant first, by Newton's steps from 0, from where they
// run up to it without passing it.
func smallestRoot(coefficients []float64) float64 {
	x := 0.0
	for range 50 {
		var value, slope float64
		for i := len(coefficients) - 1; i >= 0; i-- {
			slope = slope*x + value
			value = value*x + coefficients[i]
		}
		next := x - value/slope
		if !(next > x) {
			break
		}
		x = next
	}
	return x
}
