// Spotward takes a person through aligning the two mirrors of a Newtonian
// telescope with a laser in its focuser.
package main

import (
	"os"

	"spotward/views/command"
	"spotward/views/terminal/quiet"
)

func main() {
	quiet.Restore()
	os.Exit(command.Run(os.Args[1:], command.Streams{In: os.Stdin, Out: os.Stdout, Err: os.Stderr}))
}
