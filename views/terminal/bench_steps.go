package terminal

import (
	"spotward/views/desk"
)

// showSteps looks back over a session that is in hand, step by step.
func showSteps(a *app, w *desk.Work) {
	_, err := w.Frames()
	if err != nil {
		a.fail(err)
	}
}
