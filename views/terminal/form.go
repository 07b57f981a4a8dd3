package terminal

import (
	"errors"

	tea "github.com/charmbracelet/bubbletea"
)

// newScope begins the form for a scope of one's own.
func newScope(a *app) tea.Cmd {
	a.fail(errors.New("not here yet: write a file and name it, as in spotward align heron.toml"))
	return nil
}
