package sessiontest

import (
	"math"

	"spotward/optics"
	"spotward/session"
)

// slipStepMM is what the outline's question calls a little out of place.
const slipStepMM = 3

// OutlineOf returns the answer for an outline that stands so far toward the
// open end.
func OutlineOf(alongMM float64) string {
	far := math.Abs(alongMM) > 1.5*slipStepMM
	switch {
	case math.Abs(alongMM) <= optics.SlipFineMM:
		return session.PlaceMiddle
	case alongMM > 0 && far:
		return session.PlaceSkyFar
	case alongMM > 0:
		return session.PlaceSky
	case far:
		return session.PlaceBackFar
	}
	return session.PlaceBack
}

// PictureOf returns the answer for a picture of the primary whose middle stands
// at a place in the secondary, mm on the primary: X along the tube, Y across.
func PictureOf(t optics.Telescope, at optics.Tube) string {
	switch {
	case at.Len() <= t.AimAllowedMM():
		return session.PictureCentral
	case math.Abs(at.Y) >= t.TurnedMM(optics.TurnedFineDeg) && math.Abs(at.Y) > 2*math.Abs(at.X):
		return session.PictureAcross
	}
	return session.PictureAslant
}
