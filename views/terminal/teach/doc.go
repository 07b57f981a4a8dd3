// Package teach is the screens for learning: the ladder of lessons, a lesson,
// and the instructor's bench with its light path.
package teach
