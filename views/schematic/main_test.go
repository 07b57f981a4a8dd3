package schematic

import (
	"flag"
	"os"
	"testing"
)

var long = flag.Bool("long", false, "draw all that .ci/long does")

// of returns how many of something are drawn: with -short, usually, with -long.
func of(short, usual, many int) int {
	switch {
	case *long:
		return many
	case testing.Short():
		return short
	}
	return usual
}

func TestMain(m *testing.M) {
	flag.Parse()
	if f := flag.Lookup("rapid.checks"); f.Value.String() == f.DefValue && !*long {
		if err := f.Value.Set("20"); err != nil {
			panic(err)
		}
	}
	os.Exit(m.Run())
}
