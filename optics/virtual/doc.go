// Package virtual is a telescope that is not there: its mirrors, screws, locks
// and laser, and the hands and eyes of somebody who works on it. All
// randomness of the program lives here, behind a seed.
//
// It uses the beam's trace of package optics and nothing else of it: it is the
// other opinion against which the adviser is tried.
package virtual
