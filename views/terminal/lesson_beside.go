package terminal

// beside is somebody who stands by a session while it is played: a lesson that
// it is played for, or an instructor.
type beside interface {
	// words are those that the session itself does not know.
	words() map[string]func(a *app)
	// holds says why nothing is taken just now; nil = it is.
	holds() error
	// taken is told of every line that the session took; true = it went on from
	// there by itself.
	taken(a *app) bool
	// foot changes what stands below the drawing.
	foot(f foot, sz sizes) foot
}
