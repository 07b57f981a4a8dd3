package session

import (
	"spotward/optics"
	"spotward/session/event"
	"strings"
)

// faces returns where else the spot may be named that the step asks for: what is
// seen from the same place and was not missed. From behind there is the face
// alone.
func (st *Step) faces(s State) []optics.Face {
	if !st.Search || st.Face == optics.FaceTarget && !s.Tel.Target.Flat {
		return nil
	}
	if st.ID == StepReturn {
		return s.SkyLeft()
	}
	return s.SkyFrom(st.Face)
}

// returnToFind reports whether the return spot is looked for before one leaves
// the sky end: it is likelier than three in ten not to be on its face. Of scopes
// that nobody has aligned before three quarters are so (tried on simulated ones).
func (s State) returnToFind() bool {
	switch {
	case !s.works(optics.Primary) || s.Tel.Target.Flat || s.Primary.Tracker.Seen() || s.Primary.Redone:
		return false
	case s.way.at+1 < len(s.way.plan) && s.way.plan[s.way.at+1] == StageLaserFit && s.FitDue():
		return false // the secondary comes once more
	case s.Found.T.Known && s.Found.P.Known:
		k := (2 - s.Tel.FromPrimaryMM/s.Tel.FocalLengthMM) * s.Tel.PathMM() / s.Tel.FromPrimaryMM
		return s.Found.T.At.At.Sub(s.Found.P.At.At.Sub(s.P.At.At).Scale(k)).Len() > s.Tel.Target.FaceRadiusMM
	case s.Found.T.Gone && !s.Found.P.Known:
		return true
	}
	left := s.Knew.Left
	return left == nil || left.T == nil || left.T.Saw == event.SawGone || left.T.Saw == event.SawCantSee
}

// placesQuestion asks where the return spot is at the places that are seen from
// where one stands, with how each is answered.
func placesQuestion(faces []optics.Face) string {
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
