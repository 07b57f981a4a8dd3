package align

import (
	"spotward/views/terminal/frame"
)

// beside is somebody who stands by a session while it is played: a lesson that
// it is played for, or an instructor.
type beside interface {
	// words are those that the session itself does not know.
	Words() map[string]func(a *frame.App)
	// holds says why nothing is taken just now; nil = it is.
	Holds() error
	// taken is told of every line that the session took; true = it went on from
	// there by itself.
	Taken(a *frame.App) bool
	// foot changes what stands below the drawing.
	Foot(f frame.Foot, sz frame.Sizes) frame.Foot
}

// coverer is somebody beside who covers what is drawn.
type coverer interface {
	// Covers draws over all above the rule; false = it does not.
	Covers(p *frame.Page) bool
}
