package desk

// Frames returns the frames of the session in hand as far as it has come, of
// what is in force: what was taken back is not among them. They have no times.
func (w *Work) Frames() []Frame { return framesOf(w.State().Past()) }
