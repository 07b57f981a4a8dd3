package mirrors

import (
	"fmt"
	"math"

	"spotward/optics"
	"spotward/session/words"
)

// SwingCov is what a sound cell may let go in a swing, beside which a reading
// after it is no surprise. This program's own.
func SwingCov() optics.Cov { return optics.Round(3) }

// movedMM is how far the spot on the primary may move in a swing and still be
// called held. This program's own.
const movedMM = 2

// SlipMM is how far the return spot may move in a swing, mm: by what costs half of
// the axis error that is allowed. A primary that slides in its clips costs all of
// it.
func (s Work) SlipMM() float64 {
	return s.AllowedMM() * s.Tel.PathMM() / s.Tel.FocalLengthMM / 2
}

// Held reports whether mirror m's spot stands where it stood before the swing, as far
// as the two readings can tell.
func (s Work) Held(m optics.Mirror) bool {
	before, now, mm := s.BeforeSw.P, s.P, float64(movedMM)
	if m == optics.Primary {
		before, now, mm = s.BeforeSw.T, s.T, s.SlipMM()
	}
	if !before.Known {
		return true
	}
	eyes := before.At.Cov.Add(now.At.Cov).Sigma()
	return now.Known && now.At.At.Sub(before.At.At).Len() <= math.Max(mm, 2*eyes)
}

// SwungWords says what moved in the swing and what that means; "" where nothing
// did.
func (s Work) SwungWords() string {
	far := func(f optics.Face, before, now Spot) string {
		if !now.Known {
			return "is out of sight"
		}
		d := now.At.At.Sub(before.At.At)
		return fmt.Sprintf("has moved %.0f mm toward %s", d.Len(), words.HourWords(s.Tel.TubeToDial(f, d)))
	}
	switch {
	case !s.Held(optics.Secondary):
		return fmt.Sprintf("In the swing the spot on the primary %s. So a screw of the secondary is loose. Set the secondary first. Set the primary only if its spot is still off after that.",
			far(optics.FacePrimary, s.BeforeSw.P, s.P))
	case !s.Held(optics.Primary):
		return fmt.Sprintf("In the swing the return spot %s. The spot on the primary has not. So the primary has slid, or a lock is loose.",
			far(optics.FaceTarget, s.BeforeSw.T, s.T))
	}
	return ""
}

// SnugFirst says what comes before the tube moves where the locks were left
// eased.
func (s Work) SnugFirst() string {
	if s.Slack() <= SlackTurns {
		return ""
	}
	return "The locks are still eased. First snug each with two fingers, or the mirror tips. "
}
