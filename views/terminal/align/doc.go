// Package align is the screen of a session in hand: what to do now, where the
// spot is, where it will be when to stop, and how far that is from good enough.
package align
