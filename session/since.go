package session

import (
	"math"
	"slices"

	"spotward/optics"
	"spotward/session/event"
	"spotward/session/mirrors"
)

// LastOn returns the last reading on face f, in the frame of optics.Tube.
func (s State) LastOn(f optics.Face) (optics.Belief, bool) {
	for n := s.history; n != nil; n = n.prev {
		ev := n.event
		if ev.Kind == event.KindReading && ev.Face == f && ev.Saw != event.SawGone && ev.Saw != event.SawCantSee {
			return s.Belief(nil, ev), true
		}
	}
	return optics.Belief{}, false
}

// UntouchedSince reports whether nothing was turned, nor told to be, since face f
// was read.
func (s State) UntouchedSince(f optics.Face) bool {
	var after event.Event
	for n := s.history; n != nil; after, n = n.event, n.prev {
		switch n.event.Kind {
		case event.KindReading:
			if n.event.Face == f {
				return true
			}
		case event.KindResume: // moved while it was left, or nobody said
			if after.Kind != event.KindChoice || after.Choice != MovedNo {
				return false
			}
		case event.KindConfirm, event.KindChoice, event.KindBack, event.KindManner, event.KindFocuser:
		default:
			return false
		}
	}
	return false
}

// HardlyMoved reports whether a reading after the told moves shows the spot where it
// stood before: that is said only where it cannot be told from no move at all.
func (s State) HardlyMoved(ev event.Event) bool {
	if s.Due == nil || len(s.Due.Moves) == 0 || ev.Saw != event.SawPlace {
		return false
	}
	was, ok := s.LastOn(ev.Face)
	stop := s.Due.Moves[len(s.Due.Moves)-1].Stop
	if !ok || stop == nil {
		return false
	}
	cue := s.Tel.FromSeen(ev.Face, optics.Seen{Right: stop.Right, Up: stop.Up})
	now := s.Belief(nil, ev)
	went := now.At.Sub(was.At).Len()
	same := math.Min(mirrors.MovedPart*cue.Sub(was.At).Len(), 2*math.Sqrt2*now.Cov.Sigma())
	return cue.Sub(was.At).Len() > mirrors.TellingMM && went < same
}

// Carried returns what was told and then turned just so, while nothing was seen of it
// yet; nil where that is not how it stands. Its stop cue still holds.
func (s State) Carried() *event.Told {
	var turned []optics.Turn
	for n := s.history; n != nil; n = n.prev {
		switch n.event.Kind {
		case event.KindHand:
		case event.KindTurned:
			if turned != nil {
				return nil
			}
			turned = n.event.Turned
		case event.KindAdvised:
			if turned != nil && n.event.Told != nil && slices.Equal(turned, n.event.Told.Turns()) {
				return n.event.Told
			}
			return nil
		default:
			return nil
		}
	}
	return nil
}

// SeenElsewhere reports whether the return spot was last seen on another place than
// its face, and nothing was turned since.
func (s State) SeenElsewhere() bool {
	for n := s.history; n != nil; n = n.prev {
		switch ev := n.event; {
		case ev.Kind == event.KindReading && ev.Face != optics.FaceTarget:
			return ev.Face != optics.FacePrimary && ev.Saw == event.SawPlace
		case ev.Kind == event.KindReading && ev.Saw != event.SawGone && ev.Saw != event.SawCantSee, ev.Kind == event.KindTurned && len(ev.Turned) > 0:
			return false
		}
	}
	return false
}
