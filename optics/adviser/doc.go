// Package adviser is what is believed of a mirror's screws and of the spot that
// they move, and the next move that follows from it: which screw, which way,
// about how far, and where the spot will stand when to stop.
//
// A Tracker takes readings and turns and holds the belief; Advise chooses. It
// knows the light (package optics) and nothing of stages, words or people.
package adviser
