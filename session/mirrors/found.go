package mirrors

import (
	"math"

	"spotward/optics"
	"spotward/session/event"
)

// firstOrderPart is what the first order errs by, as part of what a spot on the
// primary takes the return spot along by: 1 to 2 in 100 as traced, 1σ.
const firstOrderPart = 0.02

// reckonFound reckons where the return spot was found, by the first sight of it once
// the secondary was turned and nothing else: it has gone with the spot on the primary
// by (2 - L/f)·S/L of that one's way (optics, first order).
func (s *Work) reckonFound() {
	f := &s.Found
	if !s.Reckons || f.T.Known || f.T.Gone || !f.P.Known || !s.P.Known || s.Tel.LensInside || !s.Primary.Tracker.Seen() {
		return
	}
	if s.TurnedHere(optics.Primary) || s.Nips > 0 || s.Slack() > SlackTurns {
		return
	}
	k := (2 - s.Tel.FromPrimaryMM/s.Tel.FocalLengthMM) * s.Tel.PathMM() / s.Tel.FromPrimaryMM
	now, went := s.Primary.Tracker.Spot(), s.P.At.At.Sub(f.P.At.At)
	cov := now.Cov.Add(s.P.At.Cov.Scale(k)).Add(f.P.At.Cov.Scale(k)).Add(optics.Round(firstOrderPart * math.Abs(k) * went.Len()))
	f.T = Spot{Known: true, Saw: event.SawComputed, At: optics.Belief{At: now.At.Sub(went.Scale(k)), Cov: cov}, Look: s.Looks}
}
