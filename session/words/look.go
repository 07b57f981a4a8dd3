package words

import (
	"strings"

	"spotward/optics"
)

// Look says a look that would settle the axis error, as what is to be done.
func Look(l optics.Look) string {
	switch l {
	case optics.LookEven:
		return "look whether the glow round the hole is even"
	case optics.LookTwice:
		return "read the spot on the primary twice"
	case optics.LookPicture:
		return "photograph the spot on the primary"
	case optics.LookRing:
		return "measure the ring's place with a paper template"
	case optics.LookLaser:
		return "roll the laser on two nails"
	case optics.LookShadow:
		return "photograph the ring's shadow"
	}
	return "look at a star"
}

// Looks says several of them.
func Looks(all []optics.Look) string {
	said := make([]string, len(all))
	for i, l := range all {
		said[i] = Look(l)
	}
	return strings.Join(said, "; ")
}

// SetBackTo says where a session has gone back to, after why: a stage by its id.
func SetBackTo(stage string) string {
	switch stage {
	case "swing":
		return " So it is swung once more. "
	case "secondary":
		return " So the secondary is set again. "
	case "laser_in":
		return " So both spots are read again. "
	}
	return " So the primary is set again. "
}
