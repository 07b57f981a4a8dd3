package mirrors

import (
	"fmt"
	"strings"

	"spotward/optics"
	"spotward/session/event"
)

// taughtSigmas is how far a move must have taken the spot, in errors of the
// readings before and after it, for what it taught to be remembered: what is read near the
// middle is coarse. This program's own.
const taughtSigmas = 3

// noteTaught keeps what is known of mirror m's screws after a move that was long
// beside the error of the look at it.
func (s *Work) noteTaught(m optics.Mirror, z optics.Belief) {
	was := s.Since.looked
	if was.mirror != m || !was.from.Seen() || z.At.Sub(was.from.Spot().At).Len() < taughtSigmas*z.Cov.Add(was.from.Spot().Cov).Sigma() {
		return
	}
	l := s.Tracker(m).Learnt()
	s.Of(m).taught = &l
}

// Learnt returns what is known of mirror m's screws for the next session on the
// same scope: what long moves taught, else what earlier sessions did. Where the
// two do not go together it is less sure.
func (s Work) Learnt(m optics.Mirror) *event.Taught {
	w := s.Of(m)
	switch {
	case w.taught == nil && w.Learnt != nil:
		l := *w.Learnt
		return &l
	case w.taught == nil:
		l := s.Tracker(m).Learnt()
		return &l
	}
	l, _ := w.taught.Beside(w.Learnt)
	now := s.Tracker(m).Learnt() // what locks pull is told by small moves, and never by more
	l.LockPull, l.LockCov, l.Hand = now.LockPull, now.LockCov, now.Hand
	return &l
}

// ChangedScrews says which of mirror m's screws do another thing than earlier
// sessions taught, "" for none.
func (s Work) ChangedScrews(m optics.Mirror) string {
	w := s.Of(m)
	if w.taught == nil {
		return ""
	}
	_, changed := w.taught.Beside(w.Learnt)
	if len(changed) == 0 {
		return ""
	}
	labels := make([]string, len(changed))
	for i, n := range changed {
		labels[i] = s.Tel.Cell(m).Labels[n]
	}
	return fmt.Sprintf("the %s's %s: not what earlier sessions taught; less is known of it from now on", m, strings.Join(labels, ", "))
}
