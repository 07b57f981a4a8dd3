package align

import (
	"errors"
	"fmt"
	"time"

	tea "github.com/charmbracelet/bubbletea"

	"spotward/session/journal"
	"spotward/session/words"
	"spotward/views/desk"
	"spotward/views/terminal/frame"
)

// Opened shows a session that was begun; again begins it once more.
func Opened(a *frame.App, w *desk.Work, err error, again func() tea.Cmd) tea.Cmd {
	a.Again = nil
	var unkept *journal.UnkeptError
	if errors.As(err, &unkept) {
		a.Again, err = again, fmt.Errorf("%w (say: go on)", err)
	}
	if err != nil {
		a.Fail(err)
		return nil
	}
	a.Push(New(w))
	switch {
	case w.Notice != "":
		a.Say(w.Notice)
	case w.Bench != nil && w.State().Looks == 0:
		a.Say(words.NumberPadHint)
	}
	a.LastKey = time.Time{}
	return nil
}
