package practice

import (
	"strings"

	"spotward/optics"
	"spotward/optics/virtual"
)

// sightWords says what is to be seen as somebody would who has no ruler: never
// where on the face, never how far.
func sightWords(v virtual.Sight) string {
	if !v.Visible {
		return unseenWords(v)
	}
	var words []string
	switch {
	case v.Wall:
		words = append(words, "Red on the tube's wall, beside the mirror.")
	case v.OnRing:
		words = append(words, "It flares on the ring.")
	case v.InRing:
		words = append(words, "Inside the ring it is dimmer again.")
	case v.Merged:
		words = append(words, "One spot, as far as you can tell.")
	case v.Down > 0.5:
		words = append(words, "Much of it goes down the hole.")
	}
	if len(v.Ghosts) > 0 {
		words = append(words, "There is a fainter dot as well.")
	}
	return strings.Join(words, " ")
}

func unseenWords(v virtual.Sight) string {
	switch v.Unseen {
	case virtual.LaserDark:
		return "No light anywhere: the laser is off, or its cell is empty."
	case virtual.InHole:
		if v.Face == optics.FaceMouth {
			return "It goes into the drawtube."
		}
		if v.Glow.Len() > glowSeen {
			return "It goes down the hole; its rim glows on one side."
		}
		return "It goes down the hole; faint rays are left, even all round."
	case virtual.TurnedAway:
		return "The laser's face is turned away from here."
	case virtual.Dim:
		return "Too faint to tell."
	case virtual.NoCard:
		return "There is no card to catch it."
	}
	return "No red is to be seen here."
}

// glowSeen is the contrast round the hole's rim that eyes can tell, 0 to 1.
// Common practice.
const glowSeen = 0.3

// Glows returns the side of the hole that glows, as seen with 12 toward the
// focuser, and whether eyes can tell one.
func (v View) Glows() (optics.Seen, bool) {
	return v.Glow, v.Face == optics.FaceTarget && v.InHole && v.Glow.Len() > glowSeen
}
