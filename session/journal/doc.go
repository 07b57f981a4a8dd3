// Package journal is an append-only file of events, one a line: written and
// synced whole or not at all, locked while it is written, and read up to its
// last whole line.
//
// It knows no stages and folds nothing.
package journal
