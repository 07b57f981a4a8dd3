package photo

import "spotward/optics/picture"

// Help says what a picture does not show, and what helps: an order first. It is
// "" where nothing is missing.
func Help(m picture.Missing) string {
	switch m {
	case picture.Ring:
		return "The centre ring is not clear in the picture. Zoom in until ring and spot fill a third of it. Use no flash."
	case picture.Spot:
		return "The ring is clear, the spot is not. Move the phone until no vane and no mirror hides the spot. Use no flash."
	case picture.Which:
		return "This red spot may be a reflection. Take a second picture from a hand's breadth aside: what keeps its place against the ring is on the glass."
	case picture.Hole:
		return "The laser's hole or the edge of its face is not clear. Take it again, from straight behind, along the tube, with the whole face in view."
	case picture.Shadow:
		return "The laser's face is clear, the ring's shadow is not. Put the lens on the laser, and dim the light around it. Use no flash."
	}
	return ""
}
