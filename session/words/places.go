package words

import (
	"strings"

	"spotward/optics"
)

// PlacesQuestion asks where the return spot is at the places that are seen from
// where one stands, with how each is answered.
func PlacesQuestion(faces []optics.Face) string {
	asks := map[optics.Face]string{
		optics.FaceSecondary: "Two spots on the secondary: type two 9 12, from the brighter to the dimmer.",
		optics.FaceMouth:     "At the drawtube's inner end: mouth 4 20.",
		optics.FaceCard:      "Red on the card: card 2 50.",
		optics.FaceTarget:    "On the laser's face: face 4 8.",
	}
	list := make([]string, len(faces))
	for i, f := range faces {
		list[i] = asks[f]
	}
	return "Where is the return spot? " + strings.Join(list, " ") + " If there is none, type: gone."
}

// OnceMore asks for a second reading where nothing was turned after the first.
func OnceMore(spot string) string {
	return "Look away, then look once more: where is " + spot + "? Two readings tell more than one."
}
