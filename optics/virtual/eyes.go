package virtual

import (
	"fmt"
	"math"
	"strings"

	"spotward/optics"
)

// Told is what kind of thing somebody says of a spot.
type Told string

// What is told. Place: a clock position and a distance. OnRing: on the ring,
// toward Hour. InRing: somewhere inside it, toward Hour. Dead: in the middle, as
// far as can be told. Home: seen going down the hole, brighter at Hour if
// Uneven. Gone: not on this face. OnWall: beside the mirror, toward Hour.
// CantSee: too dim, dark, or turned away. LaserDead: switched on and dark.
const (
	Place     Told = "place"
	OnRing    Told = "on the ring"
	InRing    Told = "in the ring"
	Dead      Told = "dead"
	Home      Told = "home"
	Gone      Told = "not there"
	OnWall    Told = "wall"
	CantSee   Told = "cant see"
	LaserDead Told = "dead laser"
)

// Reading is what a person reads off and would type.
type Reading struct {
	Face optics.Face
	Told Told
	Hour float64 // to the half-hour, 12 straight up as one stands, 0 ≤ h < 12
	MM   float64 // across the beam, from the middle of the face
	// Dial and Seen are the place that Hour and MM tell: as one stands, and with
	// 12 toward the focuser.
	Dial    optics.Dial
	Seen    optics.Seen
	Uneven  bool // one side of the hole is brighter
	Swapped bool // left for right; the person does not know
}

// tellMM is the least distance that is told from the middle.
const tellMM = 0.7

// Eyes returns what the person makes of the spot on a face.
func (w *World) Eyes(f optics.Face) Reading {
	c := newChance(w.seed, streamEyes, w.looks)
	w.looks++
	v := w.Sight(f)
	r := Reading{Face: f}
	switch {
	case v.Unseen == LaserDark && w.laser.on:
		r.Told = LaserDead
	case v.Unseen == LaserDark || v.Unseen == Dim || v.Unseen == TurnedAway:
		r.Told = CantSee
	case f == optics.FaceTarget && v.InHole:
		r.Told = Home
		r.Uneven = v.Uneven()
		w.read(&r, optics.Seen{Right: v.Glow.Right * tellMM, Up: v.Glow.Up * tellMM}, c)
		r.MM, r.Dial, r.Seen = 0, optics.Dial{}, optics.Seen{}
	case !v.Visible:
		r.Told = Gone
	default:
		w.read(&r, v.Seen, c)
		r.Told = w.told(v, r)
	}
	return r
}

// told returns what a spot that is seen is called.
func (w *World) told(v Sight, r Reading) Told {
	switch {
	case v.Wall:
		return OnWall
	case v.OnRing:
		return OnRing
	case v.Merged || r.MM == 0:
		return Dead
	case v.InRing && w.setup.Sight.Vague:
		return InRing
	}
	return Place
}

// read fills in hour and distance as these eyes read them: to the half-hour
// and the millimetre; within three millimetres to the half of one.
func (w *World) read(r *Reading, at optics.Seen, c chance) {
	k := w.setup.Sight
	d := dialOf(r.Face, w.real, at)
	mm := d.Len()*(1-k.Short)*math.Max(0.2, 1+k.Part*c.normal()) + k.MM*c.normal()
	deg := math.Atan2(d.Right, d.Up)*180/math.Pi + k.Deg*c.normal()
	if c.happens(k.Swaps) {
		r.Swapped, deg = true, -deg
	}
	r.Hour = math.Mod(math.Round(deg/15)/2+24, 12)
	r.MM = rounded(mm)
	r.Dial = optics.AtHour(r.Hour, r.MM)
	r.Seen = seenFrom(r.Face, w.real, r.Dial)
}

func rounded(mm float64) float64 {
	switch {
	case mm < tellMM:
		return 0
	case mm < 3:
		return math.Round(2*mm) / 2
	}
	return math.Round(mm)
}

// String returns the reading as one would type it.
func (r Reading) String() string {
	hour := hourText(r.Hour)
	switch r.Told {
	case OnRing:
		return hour + " on"
	case InRing:
		return "in " + hour
	case OnWall:
		return "wall " + hour
	case Home:
		if r.Uneven {
			return "home " + hour
		}
		return "home even"
	case Place:
		place := fmt.Sprintf("%s %s", hour, strings.TrimSuffix(fmt.Sprintf("%.1f", r.MM), ".0"))
		if r.Face == optics.FaceCard {
			place = "card " + place
		}
		return place
	}
	return string(r.Told)
}

func hourText(h float64) string {
	minutes := int(math.Round(h * 60))
	hour := minutes / 60 % 12
	if hour == 0 {
		hour = 12
	}
	return fmt.Sprintf("%d:%02d", hour, minutes%60)
}
