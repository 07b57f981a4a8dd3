package desk

import (
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"runtime/debug"
)

// CrashLog is where a fault of the program is written down.
type CrashLog struct{ Dir string }

// Write notes a fault, with the way to it, and returns where.
func (c CrashLog) Write(where string, fault any) string {
	path := filepath.Join(c.Dir, "crash.log")
	if info, err := os.Lstat(path); err == nil && !info.Mode().IsRegular() {
		return "nowhere, since " + path + " is not a plain file"
	}
	f, err := os.OpenFile(path, os.O_CREATE|os.O_APPEND|os.O_WRONLY, 0o644)
	if err == nil {
		_, err = fmt.Fprintf(f, "%s: %v\n%s\n", where, fault, debug.Stack())
		err = errors.Join(err, f.Sync(), f.Close())
	}
	if err != nil {
		return "nowhere, since " + path + " cannot be written"
	}
	return path
}
