// Package event is what can happen in an alignment, as data: the kinds of
// event, what a spot or a screw was seen to do, and what a person was told.
//
// A journal is a list of these. It knows scopes, since a session begins with
// one, and nothing of stages or of where events are kept.
package event
