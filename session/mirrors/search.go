package mirrors

import (
	"slices"

	"spotward/optics"
)

// SkyFaces are where the return spot shows that are seen from the sky end, the
// likeliest first; a flat face of the laser is one of them.
func (s Work) SkyFaces() []optics.Face {
	faces := []optics.Face{optics.FaceSecondary, optics.FaceMouth, optics.FaceCard}
	if k := s.Primary.Tracker; k.Seen() {
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

// ReturnFaces are all the faces on which the return spot is looked for.
var ReturnFaces = []optics.Face{optics.FaceTarget, optics.FaceMouth, optics.FaceSecondary, optics.FaceCard}

// mouthMM is within what the return spot is likelier to show at the drawtube's
// mouth than elsewhere: about its bore, and half as much again.
const mouthMM = 24

// onSecondary reports whether a return spot that far from home still meets the
// secondary.
func (s Work) onSecondary(offMM float64) bool {
	edge := optics.Belief{At: optics.Tube{X: s.Tel.MinorAxisMM / 2}}
	return offMM < s.Tel.ReturnFrom(optics.FaceSecondary, edge, optics.Belief{}).At.Len()
}

// nextRung returns the face to look at when the spot is not where it was looked
// for: the others that are seen from the sky end, then the laser's face; and when
// it is on none of them, which is the second value, all from the beginning.
func (s Work) nextRung() (optics.Face, bool) {
	for _, f := range append(s.SkyFaces(), optics.FaceTarget) {
		if !slices.Contains(s.Search.Missed, f) {
			return f, false
		}
	}
	return s.SkyFaces()[0], true
}

// SkyLeft are the places seen from the sky end at which the return spot was not
// missed.
func (s Work) SkyLeft() []optics.Face {
	return slices.DeleteFunc(s.SkyFaces(), func(f optics.Face) bool { return slices.Contains(s.Search.Missed, f) })
}

// SkyFrom are the same, f first.
func (s Work) SkyFrom(f optics.Face) []optics.Face {
	return append([]optics.Face{f}, slices.DeleteFunc(s.SkyLeft(), func(g optics.Face) bool { return g == f })...)
}
