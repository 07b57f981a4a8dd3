package teach

import (
	"spotward/views/desk"
	"spotward/views/terminal/frame"
	"spotward/views/terminal/past"
)

// showSteps looks back over a session that is in hand, from where it stands.
func showSteps(a *frame.App, w *desk.Work) {
	frames := w.Frames()
	s := &past.Screen{R: w.State().Record(), First: frames[0], Steps: desk.Steps(frames)}
	s.Looks, _ = desk.Looks(frames)
	s.Album = past.RecordAlbum(s.R, frames)
	s.At = max(0, len(s.Steps)-1)
	a.Push(s)
}
