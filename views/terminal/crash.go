package terminal

import (
	"fmt"
	"os"
	"path/filepath"
	"runtime/debug"
)

// crashLog is where a fault of the program is written down.
type crashLog struct{ dir string }

// write notes a fault and returns where.
func (c crashLog) write(where string, fault any) string {
	path := filepath.Join(c.dir, "crash.log")
	f, err := os.OpenFile(path, os.O_CREATE|os.O_APPEND|os.O_WRONLY, 0o644)
	if err != nil {
		return "nowhere, since " + path + " cannot be written"
	}
	fmt.Fprintf(f, "%s: %v\n%s\n", where, fault, debug.Stack())
	f.Close()
	return path
}

// survive turns a fault in the program into a line on the screen: every
// accepted event is on disk, so that one may go on or come back.
func (a *app) survive(where string, then func()) {
	fault := recover()
	if fault == nil {
		return
	}
	a.fail(fmt.Errorf("a fault of the program, noted in %s: nothing that was taken is lost; go on, or quit and come back", a.crash.write(where, fault)))
	then()
}
