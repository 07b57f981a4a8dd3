package camera

import (
	"image"
	"math"

	"spotward/optics"
)

// Primary draws the primary, with the laser's spot on it, as it is seen down the
// open end: the ring, the secondary on its vanes and what of it the mirror shows.
// spot is from the ring's middle, the ring being on the mirror's.
func Primary(t optics.Telescope, spot optics.Dial, h Hold) *image.RGBA {
	s, from, h := overRim(t, spot, h)
	return h.picture(from, s.seen)
}

// InSight reports whether a phone that is held so has the spot and most of the ring
// before it, with no vane and no secondary in the way: whoever holds it sees that
// on its screen.
func InSight(t optics.Telescope, spot optics.Dial, h Hold) bool {
	s, from, _ := overRim(t, spot, h)
	const around = 16
	ring := 0
	for i := range around {
		sin, cos := math.Sincos(2 * math.Pi * float64(i) / around)
		if !s.reaches(from, s.spot.plus(vec{2 * coreMM * cos, 2 * coreMM * sin, 0})) {
			return false
		}
		if s.reaches(from, vec{t.RingOuterMM * cos, t.RingOuterMM * sin, 0}) {
			ring++
		}
	}
	return ring >= around*3/4
}

// reaches reports whether a place on the mirror is seen from over the open end.
func (s tube) reaches(from, at vec) bool {
	dir := at.plus(from.scale(-1)).unit()
	return !s.inTheWay(from, dir) && !s.atWall(from, at)
}

func overRim(t optics.Telescope, spot optics.Dial, h Hold) (tube, vec, Hold) {
	h = h.with(0.36*t.ApertureMM, 180, 0.8*t.ApertureMM, 0.25)
	at := optics.AtHour(h.Hour, h.AsideMM)
	up := t.FocuserDial(optics.SkyEnd)
	s := tube{
		tel: t, light: h.Light, dark: h.Dark,
		spot:  vec{spot.Right, spot.Up, (spot.Right*spot.Right + spot.Up*spot.Up) / (4 * t.FocalLengthMM)},
		vanes: vec{up.Right, up.Up, 0}.plus(vec{-up.Up, up.Right, 0}).unit(), // midway between focuser and what is beside it
	}
	return s, vec{at.Right, at.Up, t.SkyEndMM + h.BackMM}, h
}

// tube is a scene: a telescope and where the laser meets its primary.
type tube struct {
	tel   optics.Telescope
	light float64
	dark  bool
	spot  vec
	vanes vec // the direction of one of four
}

// How bright things are against the sky (by eye, from memory), and the vanes.
const (
	mirrorPart  = 0.88
	paperPart   = 0.3
	wallPart    = 0.02
	holderPart  = 0.03
	vaneHalfMM  = 0.6
	vaneLowMM   = 10 // above where the axis meets the secondary
	vaneHighMM  = 35
	coreMM      = 0.9
	coreRed     = 4.0
	coreCold    = 2.2
	haloRed     = 0.6
	haloCold    = 0.015
	haloSquared = 6.0 // core radii
	darkSquared = 90  // from where on nothing of it is left that a picture shows
)

// seen returns what a ray from over the open end meets.
func (s tube) seen(from, dir vec) shade {
	if s.inTheWay(from, dir) {
		return grey(holderPart * s.light)
	}
	at, ok := s.onMirror(from, dir)
	if !ok || s.atWall(from, at) {
		return grey(wallPart * s.light)
	}
	f, r2 := s.tel.FocalLengthMM, at.aside2()
	if r2 > square(s.tel.RingInnerMM) && r2 < square(s.tel.RingOuterMM) {
		return grey(paperPart * s.light).plus(s.spotAt(at))
	}
	n := vec{-at.x / (2 * f), -at.y / (2 * f), 1}.unit()
	back := dir.along(n, -2*dir.dot(n))
	up := at.along(back, (s.tel.SkyEndMM-at.z)/back.z)
	shown := grey(mirrorPart * s.light)
	switch {
	case s.inTheWay(at, back):
		shown = grey(mirrorPart * holderPart / 2 * s.light)
	case up.aside2() > square(s.tel.InnerRadiusMM):
		shown = grey(mirrorPart * wallPart * s.light)
	}
	return shown.plus(s.spotAt(at))
}

func square(v float64) float64 { return v * v }

// onMirror returns where a ray meets the paraboloid z = r²/4f within the aperture.
func (s tube) onMirror(from, dir vec) (vec, bool) {
	q := 4 * s.tel.FocalLengthMM
	a := dir.x*dir.x + dir.y*dir.y
	b := 2*(from.x*dir.x+from.y*dir.y) - q*dir.z
	c := from.x*from.x + from.y*from.y - q*from.z
	d := b*b - 4*a*c
	if d < 0 {
		return vec{}, false
	}
	// the smaller root without a difference of equals; b > 0 for a ray that goes down
	at := from.along(dir, -2*c/(b+math.Copysign(math.Sqrt(d), b)))
	return at, at.aside2() <= square(s.tel.ApertureMM/2)
}

// atWall reports whether the tube's wall is met before the mirror.
func (s tube) atWall(from, at vec) bool {
	d := at.plus(from.scale(-1))
	entry := from.along(d, (s.tel.SkyEndMM-from.z)/d.z)
	return max(entry.aside2(), at.aside2()) > square(s.tel.InnerRadiusMM)
}

// inTheWay reports whether a ray meets the secondary, taken as a drum, or a vane.
func (s tube) inTheWay(from, dir vec) bool {
	radius := s.tel.MinorAxisMM / 2
	for k := -1.0; k <= 1; k += 0.25 {
		if from.along(dir, (s.tel.FromPrimaryMM+k*radius-from.z)/dir.z).aside2() < radius*radius {
			return true
		}
	}
	low := from.along(dir, (s.tel.FromPrimaryMM+vaneLowMM-from.z)/dir.z)
	high := from.along(dir, (s.tel.FromPrimaryMM+vaneHighMM-from.z)/dir.z)
	if low.aside2() > square(s.tel.InnerRadiusMM) {
		return false
	}
	for _, n := range [2]vec{s.vanes, {-s.vanes.y, s.vanes.x, 0}} {
		a, b := low.dot(n), high.dot(n)
		if min(a, b) < vaneHalfMM && max(a, b) > -vaneHalfMM {
			return true
		}
	}
	return false
}

// spotAt returns the laser's light at a place on the glass: a core that burns
// the picture white, and a red halo.
func (s tube) spotAt(at vec) shade {
	if s.dark {
		return shade{}
	}
	d := at.plus(s.spot.scale(-1))
	rr := d.dot(d) / (coreMM * coreMM)
	if rr > darkSquared {
		return shade{}
	}
	core, halo := math.Exp(-1.2*rr*rr), math.Exp(-rr/haloSquared)
	return shade{coreRed*core + haloRed*halo, coreCold*core + haloCold*halo}
}
