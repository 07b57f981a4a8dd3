package history

import (
	"strings"

	"spotward/optics"
	"spotward/session"
	"spotward/session/event"
	"spotward/session/words"
)

// SpotWords returns where a spot of a record was on face f, in words, on the
// dial of somebody who stood there: "half past 4, 12 mm from the hole".
func SpotWords(tel optics.Telescope, f optics.Face, m *session.Mark) string {
	if m == nil {
		return "not read"
	}
	at := tel.ToDial(f, optics.Seen{Right: m.Right, Up: m.Up})
	switch m.Saw {
	case event.SawGone:
		return "not on this face"
	case event.SawCantSee:
		return "could not be seen"
	case event.SawHome:
		return "home, seen going down the hole"
	case event.SawWithin:
		return "inside what counts as there"
	case event.SawInRing:
		return "somewhere inside the ring"
	case event.SawOffGlass:
		return words.HourWords(at) + ", beside the mirror"
	}
	if at.Len() == 0 {
		return words.PlaceText(f, at, "0")
	}
	if m.Picture != nil {
		return words.PictureText(f, at)
	}
	if m.Saw == event.SawComputed {
		return words.PlaceWords(f, at, at.Len()) + ", computed"
	}
	return words.PlaceWords(f, at, at.Len())
}

// LabelsWords says, of each mirror whose screws have letters, where these were
// found to stand: "primary as asked".
func LabelsWords(r session.Record) []string {
	var out []string
	for _, m := range []optics.Mirror{optics.Secondary, optics.Primary} {
		if how := r.Labels[m]; how != "" {
			out = append(out, string(m)+" "+strings.ReplaceAll(how, "_", " "))
		}
	}
	return out
}
