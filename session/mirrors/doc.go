// Package mirrors is how the work on both mirrors stands: it takes what hands have
// turned and eyes have read, and has what is believed of screws, locks, laser and
// spots, where the spots are wanted, what may be claimed of the axis, and the next
// move to be told.
//
// It knows no stage and no question. The session says in Work.Phase what little of
// them it must know. A Work is a value: a copy goes its own way.
package mirrors
