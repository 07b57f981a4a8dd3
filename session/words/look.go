package words

import "spotward/optics"

// Look says a look that would settle the axis error.
func Look(l optics.Look) string {
	switch l {
	case optics.LookEven:
		return "the glow round the hole"
	case optics.LookTwice:
		return "the spot on the primary, twice"
	case optics.LookPicture:
		return "a photograph of the spot on the primary"
	case optics.LookRing:
		return "the ring's place by a paper template"
	case optics.LookLaser:
		return "the laser rolled on two nails"
	case optics.LookShadow:
		return "a photograph of the ring's shadow"
	}
	return "a star"
}
