package answer

import (
	"spotward/optics"
	"spotward/session"
	"spotward/session/event"
	"spotward/session/words"
)

// Picture returns what a reading from a picture amounts to where s stands, as a
// typed one would. The reading is in the frame of s.
func Picture(s session.State, ev event.Event) Typed {
	told := s.Told()
	ev.Watched = told != nil && told.Watch
	at := s.Tel.ToDial(ev.Face, optics.Seen{Right: ev.Right, Up: ev.Up})
	return Typed{Events: []event.Event{ev}, Echo: words.PictureText(ev.Face, at) + takenFor(s, ev)}
}
