package frame

import (
	"fmt"
)

// survive turns a fault in the program into a line on the screen: every
// accepted event is on disk, so that one may go on or come back.
func (a *App) survive(where string, then func()) {
	fault := recover()
	if fault == nil {
		return
	}
	a.Fail(fmt.Errorf("a fault of the program, noted in %s. Nothing that you answered is lost: go on, or quit and come back", a.Crash.Write(where, fault)))
	then()
}
