package sessiontest

import (
	"flag"
	"strconv"
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

// Whole leaves a test out with -short: one that plays whole sessions, or reads
// pictures, or starts programs.
func Whole(t testing.TB) {
	t.Helper()
	if testing.Short() {
		t.Skip("for the usual run")
	}
}

// Checks sets how many tries the package's properties are held to, unless
// -rapid.checks says it; with -short rapid makes a fifth of them. It is to be called
// in TestMain.
func Checks(short, usual, many int) {
	flag.Parse()
	checks := strconv.Itoa(Of(short, usual, many))
	flag.Visit(func(f *flag.Flag) {
		if f.Name == "rapid.checks" {
			checks = f.Value.String()
		}
	})
	if f := flag.Lookup("rapid.checks"); f != nil {
		if err := f.Value.Set(checks); err != nil {
			panic(err)
		}
	}
}

// Long reports whether -long was given.
func Long() bool { return *long }
