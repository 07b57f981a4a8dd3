package answer

import (
	"spotward/optics"
	"spotward/session"
	"spotward/session/event"
)

// afterSaid says what is to be done with a screw that said so.
func afterSaid(s session.State, ev event.Event) string {
	switch ev.Is {
	case event.SaysStuck:
		if _, err := s.Index(optics.Turn{Mirror: ev.Mirror, Screw: ev.Screw}); err != nil {
			return ""
		}
		switch byLock, easable := s.HeldUp(ev.Mirror, ev.Screw); {
		case easable:
			return ": no force; the lock beside it is eased first"
		case byLock:
			return ": don't force it; the others will do its share"
		}
		return ": don't force it, leave it as it is; the others will do its share"
	case event.SaysFree:
		if ev.Mirror == optics.Secondary {
			return ": ease nothing more; all three are made snug first"
		}
		return ": turn it back until it just touches, and leave it there"
	case event.SaysEnd:
		return ": back off until it moves easily, and leave it; the others will do its share"
	case event.SaysSlipped:
		return ": take the key out and seat it again; what the screw does is learnt again"
	case event.SaysSticky:
		return ": smaller turns from now on; a knock with a knuckle on the cell before each look"
	case event.SaysStripped:
		return ": leave it alone, it holds nothing; the others will do its share"
	}
	return ""
}
