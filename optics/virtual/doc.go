// Package virtual is a telescope that is not real: its mirrors, screws, locks
// and laser, and the hands and eyes of somebody who works on it. All
// randomness of the program lives here, behind a seed.
//
// It uses the beam's trace of package optics and nothing else of it: it is the
// other opinion against which the adviser is tried. How screws set a plate,
// how a spot is seen from where one stands and what a hand feels are worked
// out here a second time.
//
// A World is changed by acts (Turn, TurnLock, Swing, Reseat …) and looked at
// by Sight and Eyes. The same telescope, setup and seed give the same World on
// every machine, and each kind of chance has its own stream: looking never
// changes what the hands do. Replaying the true turns with the Exactly forms
// leads to the same place.
package virtual
