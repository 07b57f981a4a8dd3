package session

import (
	"slices"

	"spotward/optics"
	"spotward/session/mirrors"
)

// StepID names a step within its stage.
type StepID string

// The steps, in the stages' ordinary order.
const (
	// StepMoved is asked when a session is taken up again.
	StepMoved StepID = "moved"

	StepWhy   StepID = "why"
	StepRound StepID = "round"

	// StepOn has the laser switched on, behind the card; StepRed asks what shows on
	// it where nobody looked then.
	StepClass  StepID = "class"
	StepOn     StepID = "on"
	StepRed    StepID = "red"
	StepCircle StepID = "circle"

	// StepPrimary and StepTarget ask for the spot on that face, StepWhere for
	// more of it than that it is inside the ring.
	StepPrimary StepID = "p"
	StepTarget  StepID = "t"
	StepWhere   StepID = "where"

	StepVerdict          StepID = "verdict"
	StepLettersSecondary        = StepID(optics.Secondary)
	StepLettersPrimary          = StepID(optics.Primary)

	// StepManner asks whether the spot can be watched while a screw is turned.
	StepManner StepID = "manner"

	// StepSnug has the secondary's screws all taken up; StepTwice has the spot on the
	// primary read once more, where the tag may hang on it.
	StepSnug  StepID = "snug"
	StepTwice StepID = "twice"

	// StepReturn looks for the return spot before one goes round to the back.
	StepReturn StepID = "return"

	// StepBack has the laser turned back to where it was clamped; the steps
	// before it are named by the angle.
	StepBack StepID = "back"

	StepBefore StepID = "before"
	StepCell   StepID = "cell"
	StepEase   StepID = "ease"

	// The rungs of the search for the return spot, from near to far.
	StepOnTarget    = StepID(optics.FaceTarget)
	StepOnMouth     = StepID(optics.FaceMouth)
	StepOnSecondary = StepID(optics.FaceSecondary)
	StepOnCard      = StepID(optics.FaceCard)

	// StepGlow asks whether the glow round the hole shifts at a touch.
	StepGlow StepID = "glow"

	StepNip      StepID = "nip"
	StepNipAgain StepID = "again"

	// StepUp asks for the return spot with the tube swung up, StepSwing with it
	// swung back; StepSwingTwice and StepTargetTwice have one look at it once more.
	StepUp          StepID = "up"
	StepSwing       StepID = "swing"
	StepSwingTwice  StepID = "swing_twice"
	StepTargetTwice StepID = "t_twice"

	// StepTag has the kit counted back, the laser out, and asks which tag goes on.
	StepTag StepID = "tag"

	// StepSafe has all made safe where somebody stops.
	StepSafe StepID = "safe"

	StepOutline StepID = "outline"
	StepPicture StepID = "picture"

	StepLens   StepID = "lens"
	StepShadow StepID = "shadow"

	StepStar   StepID = "star"
	StepRings  StepID = "rings"
	StepSides  StepID = "sides"
	StepFinger StepID = "finger"
	StepNearer StepID = "nearer"

	// StepAfter asks what to do about what a finer check has found.
	StepAfter StepID = "after"
	StepTurn  StepID = "turn"
)

// Letters returns the mirror whose screws' letters are asked about, and false for
// any other question.
func (a Ask) Letters() (optics.Mirror, bool) {
	if a.Stage.ID != StageLabels || a.Want != WantChoice {
		return "", false
	}
	switch a.Step {
	case StepLettersSecondary:
		return optics.Secondary, true
	case StepLettersPrimary:
		return optics.Primary, true
	}
	return "", false
}

// asksWhether reports whether a step asks if a spot is there at all: "no" is an
// answer to it.
func (s *Step) asksWhether() bool {
	switch s.ID {
	case StepOnTarget, StepOnMouth, StepOnSecondary, StepOnCard, StepReturn:
		return s.Want == WantReading
	}
	return false
}

// mayBeOn reports whether the answer to a step may be that the spot is on face f
// after all: one that is looked for may be found elsewhere.
func (s *Step) mayBeOn(f optics.Face) bool {
	return s.asksWhether() && slices.Contains(mirrors.ReturnFaces, f)
}
