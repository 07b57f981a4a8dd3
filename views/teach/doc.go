// Package teach is the room where people learn: a class takes a trainee through
// a lesson at the practice telescope, and says what came of it. Faces draw it.
package teach
