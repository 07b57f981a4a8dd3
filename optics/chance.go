package optics

import "math"

// rayleigh95 is the radius, in sigmas an axis, that a round error stays within
// in 95 of 100: √(−2·ln 0.05).
const rayleigh95 = 2.4477468306808166

// ChanceWithin returns how likely the point lies no farther than mm from the
// middle.
//
// The normal density is taken along its principal axes: exactly across (by the
// error function), by the midpoint rule along, in the angle θ of x = mm·sin θ.
func (b Belief) ChanceWithin(mm float64) float64 {
	if mm <= 0 {
		return 0
	}
	m, long, short := b.principal()
	// A point known to a thousandth of a millimetre is a point.
	long, short = math.Max(long, 1e-3), math.Max(short, 1e-3)
	from := math.Asin(clamp((m.X-7*long)/mm, -1, 1))
	to := math.Asin(clamp((m.X+7*long)/mm, -1, 1))
	// A density near to round is smooth: half the steps leave less than 1e-5.
	steps := 64
	if short >= long/2 {
		steps = 32
	}
	step := (to - from) / float64(steps)
	sum := 0.0
	for i := range steps {
		s, c := math.Sincos(from + (float64(i)+0.5)*step)
		z := (mm*s - m.X) / long
		inside := normal((mm*c-m.Y)/short) - normal((-mm*c-m.Y)/short)
		sum += math.Exp(-z*z/2) * mm * c * inside
	}
	return clamp(sum*step/(long*math.Sqrt(2*math.Pi)), 0, 1)
}

// WithinMM returns the distance from the middle, mm, that the point is within
// in the given share of cases, 0 < share < 1.
func (b Belief) WithinMM(share float64) float64 {
	miss := func(mm float64) float64 { return b.ChanceWithin(mm) - share }
	// |mean| plus the Rayleigh radius of the longer axis holds more than share.
	low, high := 0.0, b.At.Len()+math.Max(b.Cov.Sigma(), 1e-3)*math.Sqrt(-2*math.Log(1-share))
	under, over := -share, miss(high)
	if m := miss(b.At.Len()); m < 0 {
		low, under = b.At.Len(), m
	}
	// By false position; of an end that stays, half the weight (Illinois): less
	// than half the steps that halving takes.
	stays := 0.0
	for range 60 {
		if over <= 0 || high-low <= high*1e-7 {
			break
		}
		mid := (low*over - high*under) / (over - under)
		m := miss(mid)
		switch {
		case math.Abs(m) < 1e-8:
			return mid
		case m < 0:
			if low, under = mid, m; stays > 0 {
				over /= 2
			}
			stays = 1
		default:
			if high, over = mid, m; stays < 0 {
				under /= 2
			}
			stays = -1
		}
	}
	return high
}

// principal returns the mean along the principal axes of the covariance, and
// the standard deviations along them, the longer first.
func (b Belief) principal() (mean Tube, long, short float64) {
	c := b.Cov
	s, k := math.Sincos(math.Atan2(2*c.XY, c.XX-c.YY) / 2)
	half := math.Hypot((c.XX-c.YY)/2, c.XY)
	middle := (c.XX + c.YY) / 2
	mean = Tube{k*b.At.X + s*b.At.Y, k*b.At.Y - s*b.At.X}
	return mean, math.Sqrt(math.Max(0, middle+half)), math.Sqrt(math.Max(0, middle-half))
}

// normal returns the standard normal distribution function.
func normal(z float64) float64 { return math.Erfc(-z/math.Sqrt2) / 2 }

func clamp(v, low, high float64) float64 { return min(max(v, low), high) }
