//go:build !linux

package frame

import "os"

// DropUnread does nothing: what is held stays held.
func DropUnread(*os.File) {}
