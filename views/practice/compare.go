package practice

import (
	"math"

	"spotward/optics"
	"spotward/session"
	"spotward/session/event"
)

// Compared is a reading beside what was really to be seen.
type Compared struct {
	Face        optics.Face
	Read, There optics.Dial // mm, 12 straight up
	Placed      bool        // the reading names a place, and a spot was there to be read
	Seen        bool        // a spot was there, or was seen going down the hole
	Gone        bool        // it was said not to be there
	Home        bool        // it was said to go down the hole
	InHole      bool        // and it did
}

// compare keeps how a reading compares with where the spot really was.
func (b *Bench) compare(s session.State, ev event.Event) {
	if _, ok := b.finerView(); ok {
		return // no spot was read
	}
	c := b.Compare(s, ev.Face, s.Tel.ToDial(ev.Face, optics.Seen{Right: ev.Right, Up: ev.Up}))
	c.Placed = c.Placed && ev.Saw == event.SawPlace
	c.Home = ev.Saw == event.SawHome
	c.Gone = ev.Saw == event.SawGone || ev.Saw == event.SawCantSee
	b.readings = append(b.readings, c)
}

// Compare puts a place that was read on face f beside where the spot really is.
func (b *Bench) Compare(s session.State, f optics.Face, read optics.Dial) Compared {
	v := b.world.Sight(f)
	return Compared{Face: f, Read: read, There: s.Tel.ToDial(f, v.Seen), Placed: v.Visible, Seen: v.Visible || v.InHole, InHole: v.InHole}
}

// Forget leaves out of the comparison what was read and done so far.
func (b *Bench) Forget() { b.readings, b.lit, b.carded, b.deeds = nil, 0, 0, nil }

// LastOn returns the last reading on face f; false where there was none.
func (b *Bench) LastOn(f optics.Face) (Compared, bool) {
	for i := len(b.readings) - 1; i >= 0; i-- {
		if b.readings[i].Face == f {
			return b.readings[i], true
		}
	}
	return Compared{}, false
}

// mostHonest is how many readings of a piece of work, as a part, are to be of
// what was there. Trainers' judgement: one in four may be a slip.
const mostHonest = 0.75

// MostHonest reports whether most readings since Forget can be of what was there
// to be seen.
func (b *Bench) MostHonest() bool {
	honest := 0
	for _, c := range b.readings {
		if c.Honest() {
			honest++
		}
	}
	return float64(honest) >= mostHonest*float64(len(b.readings))
}

// How well a reading tells a place: within half an hour, a quarter of the
// distance, or closer than eyes can tell. Trainers' judgement.
const (
	goodHours = 0.5
	goodPart  = 0.25
	eyesMM    = 1.5
)

// How far off the clumsiest reading is that was made by looking.
const (
	clumsyMM   = 2
	clumsyPart = 0.5
)

// HoursOff returns how far the direction was off, in hours, 0 to 6.
func (c Compared) HoursOff() float64 {
	return math.Abs(math.Remainder(c.Read.Hour()-c.There.Hour(), 12))
}

// PartOff returns by which part of the true distance the one read was too
// long; below zero, too short.
func (c Compared) PartOff() float64 { return c.Read.Len()/c.There.Len() - 1 }

// Good reports whether the reading is as near as eyes can be asked to be.
func (c Compared) Good() bool {
	if math.Hypot(c.Read.Right-c.There.Right, c.Read.Up-c.There.Up) <= eyesMM {
		return true
	}
	return c.HoursOff() <= goodHours && math.Abs(c.PartOff()) <= goodPart
}

// Honest reports whether the reading, however clumsy, can be of what was there
// to be seen.
func (c Compared) Honest() bool {
	switch {
	case c.Gone:
		return !c.Seen
	case c.Home:
		return c.InHole
	}
	off := math.Hypot(c.Read.Right-c.There.Right, c.Read.Up-c.There.Up)
	return c.Seen && off <= clumsyMM+clumsyPart*c.There.Len()
}

// Swapped reports whether left and right were taken for each other: the reading
// is good but for that.
func (c Compared) Swapped() bool {
	if math.Abs(c.There.Right) < eyesMM || c.Good() {
		return false
	}
	c.Read.Right = -c.Read.Right
	return c.Good()
}
