//go:build unix

package frame

import (
	"os"

	"golang.org/x/sys/unix"
)

// CellAspect returns a cell's height over its width as the terminal's window
// has it in pixels; 0 where it does not say.
func CellAspect(f *os.File) float64 {
	w, err := unix.IoctlGetWinsize(int(f.Fd()), unix.TIOCGWINSZ)
	if err != nil || w.Xpixel == 0 || w.Ypixel == 0 || w.Col == 0 || w.Row == 0 {
		return 0
	}
	return (float64(w.Ypixel) / float64(w.Row)) / (float64(w.Xpixel) / float64(w.Col))
}

// canSuspend reports whether something would wake the program again. The
// leader of a session has no shell above it: what it sends itself is dropped,
// and it would wait for ever.
func canSuspend() bool {
	sid, err := unix.Getsid(0)
	return err == nil && unix.Getpgrp() != sid
}
