// Package quiet keeps the program from asking the terminal questions before
// main has begun.
//
// The packages under the terminal UI ask the terminal for the colour of its
// ground as they are initialised. A terminal that does not answer stalls the
// program for seconds, even for --version; one that answers late puts its
// answer among what the person types. They do not ask where CI is set, so it
// is set here first and put back by Restore.
//
// This leans on the order of initialisation: it imports os alone, so that it
// comes before them. A test with a silent terminal holds it in place.
package quiet

import "os"

const name = "CI"

func init() {
	if _, had := os.LookupEnv(name); !had {
		os.Setenv(name, marker)
	}
}

// marker tells our own setting from one that was there.
const marker = "spotward starts quietly"

// Restore puts the environment back as the program was given it. It is to be
// called first in main.
func Restore() {
	if os.Getenv(name) == marker {
		os.Unsetenv(name)
	}
}
