package optics

import (
	"errors"
	"math"
)

// Circle is a circle fitted to readings whose angles are not known. Three
// points always lie on one, so RMSMM says something from the fourth on.
type Circle struct {
	Centre   Tube
	RadiusMM float64
	RMSMM    float64 // of the points' distances from the circle
}

// ErrCircle: the points do not fix a circle.
var ErrCircle = errors.New("these readings do not lie on a circle: read three or more, well apart")

// FitKasa returns the circle of least squares of x² + y² − 2ax − 2by − c (I.
// Kåsa, IEEE Trans. Instrum. Meas. 25, 8 (1976)): linear and quick, and too
// small where the points cover only a part of the circle.
func FitKasa(points []Tube) (Circle, error) {
	m, err := momentsOf(points)
	if err != nil {
		return Circle{}, err
	}
	return m.circle(points, 0, 0)
}

// FitPratt returns the algebraic fit under Pratt's constraint b² + c² − 4ad = 1
// (V. Pratt, Comput. Graph. 21, 145 (1987)).
func FitPratt(points []Tube) (Circle, error) {
	m, err := momentsOf(points)
	if err != nil {
		return Circle{}, err
	}
	a := m.constraint()
	x := smallestRoot([]float64{a[0], a[1], 4*m.det - 3*m.z*m.z - m.zz, 0, 4})
	return m.circle(points, x, 2*x)
}

// FitTaubin returns the algebraic fit under Taubin's constraint (G. Taubin,
// IEEE Trans. PAMI 13, 1115 (1991)): nearly unbiased, and the start of
// FitGeometric.
func FitTaubin(points []Tube) (Circle, error) {
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
func FitGeometric(points []Tube) (Circle, error) {
	c, err := FitTaubin(points)
	if err != nil {
		return c, err
	}
	for range 100 {
		step, ok := c.geometricStep(points)
		if !ok {
			return Circle{}, ErrCircle
		}
		c = circleAbout(points, c.Centre.Add(step))
		if step.Len() < 1e-12*(1+c.RadiusMM) {
			break
		}
	}
	return c, nil
}

// geometricStep returns the Gauss-Newton step of the centre, the radius being
// always the mean distance.
func (c Circle) geometricStep(points []Tube) (Tube, bool) {
	n := float64(len(points))
	var mean Tube // of the unit vectors from the centre
	for _, p := range points {
		mean = mean.Add(unit(p.Sub(c.Centre)).Scale(1 / n))
	}
	var xx, xy, yy float64
	var right Tube
	for _, p := range points {
		away := p.Sub(c.Centre)
		j := unit(away).Sub(mean)
		xx, xy, yy = xx+j.X*j.X, xy+j.X*j.Y, yy+j.Y*j.Y
		right = right.Add(j.Scale(away.Len() - c.RadiusMM))
	}
	det := xx*yy - xy*xy
	if !(det > 1e-12) {
		return Tube{}, false
	}
	return Tube{yy*right.X - xy*right.Y, xx*right.Y - xy*right.X}.Scale(1 / det), true
}

func unit(v Tube) Tube {
	if n := v.Len(); n > 0 {
		return v.Scale(1 / n)
	}
	return Tube{}
}

// circleAbout returns the circle about a centre with the mean distance of the
// points as its radius.
func circleAbout(points []Tube, centre Tube) Circle {
	c := Circle{Centre: centre}
	for _, p := range points {
		c.RadiusMM += p.Sub(centre).Len() / float64(len(points))
	}
	c.RMSMM = c.rms(points)
	return c
}

func (c Circle) rms(points []Tube) float64 {
	sum := 0.0
	for _, p := range points {
		d := p.Sub(c.Centre).Len() - c.RadiusMM
		sum += d * d
	}
	return math.Sqrt(sum / float64(len(points)))
}

// moments are the means of products of the points' coordinates about their
// middle, with z = x² + y²; det = xx·yy − xy² (N. Chernov, Circular and Linear
// Regression (2010), ch. 5; from memory).
type moments struct {
	middle                 Tube
	xx, xy, yy, xz, yz, zz float64
	z, det                 float64
}

func momentsOf(points []Tube) (moments, error) {
	var m moments
	n := float64(len(points))
	for _, p := range points {
		m.middle = m.middle.Add(p.Scale(1 / n))
	}
	for _, p := range points {
		d := p.Sub(m.middle)
		z := d.Dot(d)
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
func (m moments) circle(points []Tube, x, extra float64) (Circle, error) {
	det := m.det - x*m.z + x*x
	if det == 0 {
		return Circle{}, ErrCircle
	}
	a := (m.xz*(m.yy-x) - m.yz*m.xy) / (2 * det)
	b := (m.yz*(m.xx-x) - m.xz*m.xy) / (2 * det)
	c := Circle{Centre: m.middle.Add(Tube{a, b}), RadiusMM: math.Sqrt(a*a + b*b + m.z + extra)}
	c.RMSMM = c.rms(points)
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
