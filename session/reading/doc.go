// Package reading understands what people say they see, or what they say they
// did: "4:30 12", "in 4", "stuck B". What it returns has a place, its error,
// and an echo in words.
//
// It knows the telescope, the face that is looked at and the move that was
// told. It knows no stage and no state.
package reading
