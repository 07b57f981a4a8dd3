package session

import (
	"slices"
	"strings"

	"spotward/optics"
	"spotward/session/event"
)

// skyFaces are where the return spot shows that are seen from the sky end, the
// likeliest first; a flat face of the laser is one of them.
func (s State) skyFaces() []optics.Face {
	faces := []optics.Face{optics.FaceSecondary, optics.FaceMouth, optics.FaceCard}
	if k := s.primary.tracker; k.Seen() {
		switch off := k.Spot().At.Len(); {
		case off < mouthMM:
			faces = []optics.Face{optics.FaceMouth, optics.FaceSecondary, optics.FaceCard}
		case !s.onSecondary(off):
			faces = []optics.Face{optics.FaceCard, optics.FaceSecondary, optics.FaceMouth}
		}
	}
	if s.Tel.Target.Flat {
		faces = append([]optics.Face{optics.FaceTarget}, faces...)
	}
	return faces
}

// returnFaces are all the faces on which the return spot is looked for.
var returnFaces = []optics.Face{optics.FaceTarget, optics.FaceMouth, optics.FaceSecondary, optics.FaceCard}

// mouthMM is within what the return spot is likelier to show at the drawtube's
// mouth than elsewhere: about its bore, and half as much again.
const mouthMM = 24

// onSecondary reports whether a return spot that far from home still meets the
// secondary.
func (s State) onSecondary(offMM float64) bool {
	edge := optics.Belief{At: optics.Tube{X: s.Tel.MinorAxisMM / 2}}
	return offMM < s.Tel.ReturnFrom(optics.FaceSecondary, edge, optics.Belief{}).At.Len()
}

// nextRung returns the face to look at when the spot is not where it was looked
// for: the others that are seen from the sky end, then the laser's face, and when
// it is on none of them all from the beginning.
func (s *State) nextRung() optics.Face {
	for _, f := range append(s.skyFaces(), optics.FaceTarget) {
		if !slices.Contains(s.search.missed, f) {
			return f
		}
	}
	s.search.missed = nil
	return s.skyFaces()[0]
}

// faces returns where else the spot may be named that the step asks for: what is
// seen from the same place and was not missed. From behind there is the face
// alone.
func (st *Step) faces(s State) []optics.Face {
	if !st.Search || st.Face == optics.FaceTarget && !s.Tel.Target.Flat {
		return nil
	}
	if st.ID == StepReturn {
		return s.skyLeft()
	}
	return s.skyFrom(st.Face)
}

// skyLeft are the places seen from the sky end at which the return spot was not
// missed.
func (s State) skyLeft() []optics.Face {
	return slices.DeleteFunc(s.skyFaces(), func(f optics.Face) bool { return slices.Contains(s.search.missed, f) })
}

// skyFrom are the same, f first.
func (s State) skyFrom(f optics.Face) []optics.Face {
	return append([]optics.Face{f}, slices.DeleteFunc(s.skyLeft(), func(g optics.Face) bool { return g == f })...)
}

// returnToFind reports whether the return spot is looked for before one leaves
// the sky end: it is likelier than three in ten not to be on its face. Of scopes
// that nobody has aligned before three quarters are so (tried on simulated ones).
func (s State) returnToFind() bool {
	switch {
	case !s.works(optics.Primary) || s.Tel.Target.Flat || s.primary.tracker.Seen() || s.primary.redone:
		return false
	case s.way.at+1 < len(s.way.plan) && s.way.plan[s.way.at+1] == StageLaserFit && s.fitDue():
		return false // the secondary comes once more
	case s.Found.T.Known && s.Found.P.Known:
		k := (2 - s.Tel.FromPrimaryMM/s.Tel.FocalLengthMM) * s.Tel.PathMM() / s.Tel.FromPrimaryMM
		return s.Found.T.At.At.Sub(s.Found.P.At.At.Sub(s.p.At.At).Scale(k)).Len() > s.Tel.Target.FaceRadiusMM
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
		optics.FaceSecondary: "two spots on the secondary (two 9 12: the dimmer one from the brighter)",
		optics.FaceMouth:     "on the drawtube's mouth (mouth 4 20)",
		optics.FaceCard:      "red on the card (card 2 50)",
		optics.FaceTarget:    "on the laser's face (face 4 8)",
	}
	list := make([]string, len(faces))
	for i, f := range faces {
		list[i] = asks[f]
	}
	if len(list) == 1 {
		return "Where is the return spot: " + list[0] + "? Not there: gone."
	}
	return "Where is the return spot: " + strings.Join(list[:len(list)-1], ", ") + ", or " + list[len(list)-1] + "? None: gone."
}
