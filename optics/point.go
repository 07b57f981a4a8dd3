package optics

import "math"

// Tube is a point or a displacement across the beam, in mm, in the tube's own
// frame: on the primary and the secondary X is toward the focuser; on the
// target face, where the fold has turned the beam, X is along the tube toward
// the sky. Y = z × x on both. The zero Tube is the middle of the face: the
// centre ring, the outgoing spot, or the target hole.
type Tube struct{ X, Y float64 }

// Add returns a + b.
func (a Tube) Add(b Tube) Tube { return Tube{a.X + b.X, a.Y + b.Y} }

// Sub returns a − b.
func (a Tube) Sub(b Tube) Tube { return Tube{a.X - b.X, a.Y - b.Y} }

// Scale returns k·a.
func (a Tube) Scale(k float64) Tube { return Tube{k * a.X, k * a.Y} }

// Dot returns a · b.
func (a Tube) Dot(b Tube) float64 { return a.X*b.X + a.Y*b.Y }

// Len returns the distance of a from the middle, mm.
func (a Tube) Len() float64 { return math.Hypot(a.X, a.Y) }

// Seen is a point across the beam, in mm, as a person in the right place sees
// it when 12 o'clock is toward the focuser (see Telescope.ToSeen). It is the
// frame of the JSON lines and of the journal. It is not a Tube: the two are
// turned and, on some faces, mirrored against each other.
type Seen struct{ Right, Up float64 }

// Len returns the distance from the middle, mm.
func (s Seen) Len() float64 { return math.Hypot(s.Right, s.Up) }

// Dial is a point across the beam, in mm, as a person sees it who stands where
// the stage says: 12 o'clock is straight up, 6 is the ground. It is the frame
// of what people type and of every drawing.
type Dial struct{ Right, Up float64 }

// Len returns the distance from the middle, mm.
func (d Dial) Len() float64 { return math.Hypot(d.Right, d.Up) }

// Hour returns the clock position of d in hours, 0 ≤ h < 12, with 0 for twelve
// o'clock. The middle itself counts as 0.
func (d Dial) Hour() float64 {
	h := math.Atan2(d.Right, d.Up) * 6 / math.Pi
	if h < 0 {
		h += 12
	}
	if h >= 12 { // −0 and rounding
		h = 0
	}
	return h
}

// AtHour returns the point at the given clock position (hours, 12 straight up)
// and distance in mm.
func AtHour(hour, mm float64) Dial {
	s, c := math.Sincos(hour * math.Pi / 6)
	return Dial{Right: mm * s, Up: mm * c}
}

// Cov is a symmetric covariance of a point in the frame of that point, mm².
type Cov struct{ XX, XY, YY float64 }

// Round returns the covariance of an error of sigmaMM in every direction.
func Round(sigmaMM float64) Cov { v := sigmaMM * sigmaMM; return Cov{XX: v, YY: v} }

// Polar returns the covariance of a point at v whose distance is known to
// alongMM and whose direction to acrossMM (1σ, mm), in the frame of v. At the
// middle there is no direction and the larger of the two holds both ways.
func Polar(v Tube, alongMM, acrossMM float64) Cov {
	n := v.Len()
	if n == 0 {
		return Round(math.Max(alongMM, acrossMM))
	}
	c, s := v.X/n, v.Y/n
	a, b := alongMM*alongMM, acrossMM*acrossMM
	return Cov{XX: a*c*c + b*s*s, XY: (a - b) * c * s, YY: a*s*s + b*c*c}
}

// Add returns the covariance of the sum of two independent points.
func (c Cov) Add(d Cov) Cov { return Cov{c.XX + d.XX, c.XY + d.XY, c.YY + d.YY} }

// Scale returns the covariance of k times the point.
func (c Cov) Scale(k float64) Cov { k *= k; return Cov{k * c.XX, k * c.XY, k * c.YY} }

// Sigma returns the larger of the two principal standard deviations, mm.
func (c Cov) Sigma() float64 {
	m, d := (c.XX+c.YY)/2, math.Hypot((c.XX-c.YY)/2, c.XY)
	return math.Sqrt(math.Max(0, m+d))
}

// Belief is where a spot is thought to be: a mean and its covariance.
type Belief struct {
	At  Tube
	Cov Cov
}
