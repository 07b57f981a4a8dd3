package mirrors

import (
	"fmt"
	"iter"
	"strings"

	"spotward/optics"
	"spotward/session/words"
)

// Dragging returns the letters of the locks that drag the return spot farther than its
// goal is wide in the quarter by which they are eased, and says which way as they bite.
func (s Work) Dragging() iter.Seq2[string, string] {
	return func(yield func(string, string) bool) {
		if s.Nips == 0 {
			return
		}
		for i, label := range s.Tel.Primary.Labels[:s.Tel.Primary.Locks] {
			pull := s.Primary.Tracker.LockPull(i)
			off := pull.At.Scale(EaseTurns)
			if off.Len() <= s.GoalOnTarget().InsideMM || pull.At.Len() < 2*pull.Cov.Sigma() {
				continue
			}
			if !yield(label, fmt.Sprintf("Lock %s drags the return spot by %.0f mm as it grips, toward %s.",
				label, off.Len(), words.HourWords(s.Tel.TubeToDial(optics.FaceTarget, off)))) {
				return
			}
		}
	}
}

// Unseen says what was not looked at since it could last have moved.
func (s Work) Unseen() string {
	var list []string
	if !s.P.Known {
		list = append(list, "the spot on the primary")
	}
	if !s.T.Known {
		list = append(list, "the return spot")
	}
	if s.BeforeSw.T.Look == 0 && s.BeforeSw.P.Look == 0 {
		list = append(list, "whether it holds in a swing")
	}
	if len(list) == 0 {
		return ""
	}
	return " Not looked at any more: " + strings.Join(list, ", ") + "."
}

// Noted returns what is to be known of screws and laser, in words.
func (s Work) Noted() []string {
	if s.Laser.Weak {
		return append(s.Troubles[:len(s.Troubles):len(s.Troubles)], "the laser is weak")
	}
	return s.Troubles
}
