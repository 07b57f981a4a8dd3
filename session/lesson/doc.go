// Package lesson is the ladder of lessons at the practice telescope, what a
// trainee's deeds in them come to, and what can be signed off.
//
// It reads states of a session; it knows no face, no telescope and no file.
package lesson
