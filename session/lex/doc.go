// Package lex takes a typed line apart: words, numbers, units and what parts
// them, with every number written in one way. It has the classes of words, and the
// error that names what of a line was not understood.
//
// It knows no telescope, no question and no state: what the words mean is
// read by package reading.
package lex
