// Package header is what is said first at every step, as values: where to stand, the
// tool, how the tube lies, the laser and the card over the open end. Its words, long
// and short, are here as well, and nowhere else.
//
// It knows no stage and no state: a stage's row says which header it has.
package header
