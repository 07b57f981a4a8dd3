package virtual

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"

	"spotward/optics"
)

// StarView is a star in the middle of the field, in an eyepiece racked so far from
// focus: a disc of light with a dark spot in it.
type StarView struct {
	Focus optics.Focus // the side of focus
	// Thin is how thick the light is where it is thinnest, as part of what it is
	// on the other side; 1: even all round.
	Thin float64
	// Hour is where a finger over the rim of the open end, seen from the sky
	// end, 12 straight up, shows in the thinnest part.
	Hour float64
	Seen optics.Seen // that place of the finger, with 12 toward the focuser
}

// starMM is the light's wavelength: green.
const starMM = 550e-6

// Star returns what a star truly looks like on one side of focus, so many waves
// out of it: by its rays past the mirrors' edges, and past a finger.
func (w *World) Star(waves float64, focus optics.Focus) StarView {
	f, d := w.real.FocalLengthMM, w.real.ApertureMM
	racked := 8 * f / d * f / d * waves * starMM
	side := 1.
	if focus == optics.InsideFocus {
		side = -1
	}
	light := w.starlight(side * racked)
	disc, dark := light.disc(), light.dark()
	from := middleOf(dark)
	thick := func(rad float64) float64 { // how thick the light is that way
		s, c := math.Sincos(rad)
		way := optics.Tube{X: c, Y: s}
		return reach(disc, from, way) - reach(dark, from, way)
	}
	part := func(rad float64) float64 { return thick(rad) / thick(rad+math.Pi) }
	way := least(part)
	v := StarView{Focus: focus, Thin: math.Max(0, part(way))}
	finger := light.fingerAt(from, way, side)
	v.Seen = seenOn(optics.FaceCard, w.real, finger)
	v.Hour = dialOf(optics.FaceCard, w.real, v.Seen).Hour()
	return v
}

// fingerAt returns where over the rim of the open end a finger shows that way
// from the middle of the dark spot.
func (s starlight) fingerAt(from optics.Tube, way, side float64) optics.Tube {
	r, up := s.w.real.ApertureMM/2, s.w.real.OpenEndMM()
	rad := way
	if side > 0 { // upside down beyond focus
		rad += math.Pi
	}
	at := func() optics.Tube { return optics.Tube{X: r * math.Cos(rad), Y: r * math.Sin(rad)} }
	for range 4 {
		// its tip, which reaches in from the rim to where the light is
		tip := at().Scale(0.7)
		shows := s.past(r3.Vec{X: tip.X, Y: tip.Y, Z: up}).Sub(from)
		rad += math.Remainder(way-math.Atan2(shows.Y, shows.X), 2*math.Pi)
	}
	return at()
}

// middleOf returns the middle of a closed line.
func middleOf(line []optics.Tube) (m optics.Tube) {
	for _, at := range line {
		m = m.Add(at.Scale(1 / float64(len(line))))
	}
	return m
}

// reach returns how far a closed line is from a point inside it, one way (of unit
// length); nought where the line is not met.
func reach(line []optics.Tube, from, way optics.Tube) float64 {
	far := 0.
	last := line[len(line)-1].Sub(from)
	for _, at := range line {
		at = at.Sub(from)
		a, b := way.X*last.Y-way.Y*last.X, way.X*at.Y-way.Y*at.X // to the left of the way
		if (a < 0) != (b < 0) {
			k := a / (a - b)
			far = math.Max(far, way.Dot(last)*(1-k)+way.Dot(at)*k)
		}
		last = at
	}
	return far
}

// least returns where on a circle a smooth function is least, rad.
func least(f func(rad float64) float64) float64 {
	const steps = 24
	step := 2 * math.Pi / steps
	best, at := 0., math.Inf(1)
	for i := range steps {
		if rad := float64(i) * step; f(rad) < at {
			best, at = rad, f(rad)
		}
	}
	low, high := best-step, best+step
	for range 20 { // by thirds
		a, b := low+(high-low)/3, high-(high-low)/3
		if f(a) < f(b) {
			high = b
		} else {
			low = a
		}
	}
	return (low + high) / 2
}

// evenToEyes: light that is thicker than four fifths of the other side's looks
// even.
const evenToEyes = 0.8

// StarEyes returns what the person makes of it: even, or how thin to a tenth, and
// where to the half-hour.
func (w *World) StarEyes(waves float64, focus optics.Focus) StarView {
	c := newChance(w.seed, streamEyes, w.looks)
	w.looks++
	v := w.Star(waves, focus)
	k := w.setup.Sight
	v.Thin *= math.Max(0.2, 1+k.Part*c.normal()/2)
	if v.Thin > evenToEyes {
		v.Thin = 1
	}
	v.Thin = math.Round(10*v.Thin) / 10
	v.Hour = math.Mod(math.Round(2*(v.Hour+k.Deg*c.normal()/15))/2+12, 12)
	v.Seen = seenFrom(optics.FaceCard, w.real, optics.AtHour(v.Hour, w.real.ApertureMM/2))
	return v
}
