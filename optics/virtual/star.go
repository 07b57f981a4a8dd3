package virtual

import (
	"math"

	"spotward/optics"
)

// StarView is a star in the middle of the field, in an eyepiece racked in from
// focus: a disc of light with the secondary's shadow in it.
type StarView struct {
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

// Star returns what a star truly looks like, so many waves out of focus.
//
// Of a mirror whose axis misses the star by h, the rays of a zone z high come
// together on a circle of diameter h·z²/(2f²) that lies as far from the chief
// ray, away from the axis (telescope-optics.net, coma): the two in line with
// the axis both at ¾·h·z²/f².
func (w *World) Star(waves float64) StarView {
	f, d := w.real.FocalLengthMM, w.real.ApertureMM
	e := w.Truth().Spots.E
	racked := 8 * f / d * f / d * waves * starMM
	edges := func(z float64) (toward, away float64) {
		half, coma := racked*z/f, 3./4*e.Len()*z*z/(f*f)
		return half - coma, half + coma
	}
	discToward, discAway := edges(d / 2)
	darkToward, darkAway := edges(w.real.MinorAxisMM / 2)
	v := StarView{Thin: math.Max(0, (discToward-darkToward)/(discAway-darkAway))}
	if n := e.Len(); n > 0 {
		v.Seen = seenOn(optics.FaceCard, w.real, e.Scale(d/2/n))
		v.Hour = dialOf(optics.FaceCard, w.real, v.Seen).Hour()
	}
	return v
}

// StarEyes returns what the person makes of it: to a tenth, and to the
// half-hour.
func (w *World) StarEyes(waves float64) StarView {
	c := newChance(w.seed, streamEyes, w.looks)
	w.looks++
	v := w.Star(waves)
	k := w.setup.Sight
	v.Thin = math.Round(10*math.Min(1, v.Thin*math.Max(0.2, 1+k.Part*c.normal()/2))) / 10
	v.Hour = math.Mod(math.Round(2*(v.Hour+k.Deg*c.normal()/15))/2+12, 12)
	v.Seen = seenFrom(optics.FaceCard, w.real, optics.AtHour(v.Hour, w.real.ApertureMM/2))
	return v
}
