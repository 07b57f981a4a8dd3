package session

import (
	"cmp"

	"spotward/optics"
	"spotward/session/event"
	"spotward/session/header"
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

// seenFrom has one stand where a flat face is seen: past the card, in the mirrors.
func (s State) seenFrom(st *Stage, step *Step) *Step {
	h := *cmp.Or(step.Header, &st.Header)
	if step.Want != WantReading || step.Face != optics.FaceTarget || step.Aside || !s.Tel.Target.Flat || h.Stand != header.StandBehind {
		return step
	}
	if h.Stand, h.Card = header.StandSky, header.CardHalf; h.Tool == header.ToolPrimary {
		h.Tool = header.ToolPrimaryNext
	}
	sky := *step
	sky.Header, sky.Beware, sky.Brief = &h, insideBeware(), insideBrief
	return &sky
}

// atFace has one go to where the laser's face is seen from, which is mostly behind.
func (s State) atFace(behind string) string {
	if s.Tel.Target.Flat {
		return "Look in past the card, at the laser's face in the mirrors. "
	}
	return behind
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
