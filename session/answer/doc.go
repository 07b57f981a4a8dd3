// Package answer reads a typed line against what a session asks: the words that hold
// everywhere, the answers to the question, readings and what screws say. It
// returns the events to send and the understood form to say back.
//
// It decides nothing: whether an event is taken is for session.Apply. It knows
// no file and no face.
package answer
