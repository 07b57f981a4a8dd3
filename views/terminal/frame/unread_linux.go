package frame

import (
	"os"

	"golang.org/x/sys/unix"
)

// DropUnread throws away what was written to a terminal and has not been read
// there, and lets output go on that was held with Ctrl-S. Stopping it first
// wakes who waits to write: a terminal that is only emptied does not.
func DropUnread(f *os.File) {
	fd := int(f.Fd())
	unix.IoctlSetInt(fd, unix.TCFLSH, unix.TCOFLUSH)
	unix.IoctlSetInt(fd, unix.TCXONC, unix.TCOOFF)
	unix.IoctlSetInt(fd, unix.TCXONC, unix.TCOON)
}
