package session

import (
	"strings"

	"spotward/optics"
)

// SpotWords returns where a spot of a record was on face f, in words, on the
// dial of somebody who stood there: "half past 4, 12 mm from the hole".
func SpotWords(tel optics.Telescope, f optics.Face, m *Mark) string {
	if m == nil {
		return "not read"
	}
	at := tel.ToDial(f, optics.Seen{Right: m.Right, Up: m.Up})
	switch m.Saw {
	case SawGone:
		return "not on this face"
	case SawCantSee:
		return "could not be seen"
	case SawHome:
		return "home, seen going down the hole"
	case SawWithin:
		return "inside what counts as there"
	case SawInRing:
		return "somewhere inside the ring"
	case SawOffGlass:
		return HourWords(at) + ", beside the mirror"
	}
	if at.Len() == 0 {
		return placeText(f, at, "0")
	}
	return PlaceWords(f, at, at.Len())
}

// LabelsWords says, of each mirror whose screws have letters, where these were
// found to stand: "primary as asked".
func LabelsWords(r Record) []string {
	var out []string
	for _, m := range []optics.Mirror{optics.Secondary, optics.Primary} {
		if how := r.Labels[m]; how != "" {
			out = append(out, string(m)+" "+strings.ReplaceAll(how, "_", " "))
		}
	}
	return out
}
