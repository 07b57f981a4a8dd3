package history

import (
	"fmt"

	"spotward/optics"
	"spotward/session/words"
)

// Words says what an interval points to.
func (c Cause) Words() string {
	switch c {
	case CauseHeld:
		return "nothing: it held"
	case CauseSecondary:
		return "the secondary alone"
	case CausePrimary:
		return "the primary alone"
	case CauseSeat:
		return "laser seat, holder or drawtube"
	case CauseRing:
		return "the centre ring"
	case CauseBoth:
		return "more than one thing"
	case CauseUnseen:
		return "nothing that was read"
	}
	return "secondary or laser"
}

// PrimaryWords says how far and which way the spot on the primary moved, on the
// dial of somebody who stands where it is read.
func (i Interval) PrimaryWords(tel optics.Telescope) string {
	return movedWords(tel, optics.FacePrimary, i.P)
}

// ReturnWords says the same of the return spot.
func (i Interval) ReturnWords(tel optics.Telescope) string {
	if i.Gone && i.T == nil {
		return "went off the face"
	}
	text := movedWords(tel, optics.FaceTarget, i.T)
	if i.Worked {
		text += " (by what brought it home)"
	}
	return text
}

func movedWords(tel optics.Telescope, f optics.Face, by *optics.Belief) string {
	if by == nil {
		return "not known"
	}
	if by.At.Len() < 0.5 {
		return "not at all"
	}
	return fmt.Sprintf("%.0f mm to %s", by.At.Len(), words.ClockText(tel.TubeToDial(f, by.At)))
}
