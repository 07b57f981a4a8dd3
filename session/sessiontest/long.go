package sessiontest

import (
	"flag"
	"testing"
)

var long = flag.Bool("long", false, "play as many as the checks do that take too long for every change")

// Of returns how many of something a test tries: with -short, usually, and with
// -long, which .ci/long gives. What can be told from the many alone is asked only
// with Long.
func Of(short, usual, many int) int {
	switch {
	case *long:
		return many
	case testing.Short():
		return short
	}
	return usual
}

// Long reports whether -long was given.
func Long() bool { return *long }
