package session

import (
	"spotward/optics"
	"spotward/session/event"
)

// LastOn returns the last reading on face f, in the frame of optics.Tube.
func (s State) LastOn(f optics.Face) (optics.Belief, bool) {
	for n := s.history; n != nil; n = n.prev {
		ev := n.event
		if ev.Kind == event.KindReading && ev.Face == f && ev.Saw != event.SawGone && ev.Saw != event.SawCantSee {
			return s.belief(Ask{}, ev), true
		}
	}
	return optics.Belief{}, false
}

// UntouchedSince reports whether nothing was turned, nor told to be, since face f
// was read.
func (s State) UntouchedSince(f optics.Face) bool {
	for n := s.history; n != nil; n = n.prev {
		switch n.event.Kind {
		case event.KindReading:
			if n.event.Face == f {
				return true
			}
		case event.KindConfirm, event.KindChoice, event.KindBack, event.KindManner, event.KindFocuser:
		default:
			return false
		}
	}
	return false
}
