package terminal

import "spotward/views/desk"

// showSteps looks back over a session that is in hand, from where it stands.
func showSteps(a *app, w *desk.Work) {
	frames := w.Frames()
	s := &past{r: w.State().Record(), first: frames[0], steps: desk.Steps(frames)}
	s.looks, _ = desk.Looks(frames)
	s.album = recordAlbum(s.r, frames)
	s.at = max(0, len(s.steps)-1)
	a.push(s)
}
