// Package words is how things are said: a place, a turn, a face, an answer.
// It is the one voice of all faces. It has the one function that takes from a
// text what a terminal would obey.
//
// It knows the telescope's terms and nothing of sessions.
package words
