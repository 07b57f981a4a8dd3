package mirrors

import (
	"fmt"
	"math"

	"spotward/optics"
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

// SwungWords says why a mirror is looked at again after the swing: the secondary, or
// the primary.
func (s Work) SwungWords(secondary bool) string {
	m, spot, now, before := optics.Primary, "return spot", s.T, s.BeforeSw.T
	if secondary {
		m, spot, now, before = optics.Secondary, "spot on the primary", s.P, s.BeforeSw.P
	}
	what := "is not at its goal after the swing"
	switch {
	case !now.Known:
		what = "is out of sight after the swing"
	case !s.Held(m):
		what = fmt.Sprintf("moved %.0f mm in the swing", now.At.At.Sub(before.At.At).Len())
	}
	return fmt.Sprintf("The %s %s.", spot, what)
}

// SnugFirst says what comes before the tube moves where the locks were left
// eased.
func (s Work) SnugFirst() string {
	if s.Slack() <= SlackTurns {
		return ""
	}
	return "The locks are still eased. First snug each with two fingers, or the mirror tips. "
}
