package frame

import (
	"time"

	tea "github.com/charmbracelet/bubbletea"
)

// waiter is a screen that something may come to while nobody types.
type waiter interface {
	// Waits reports whether it is to be looked for at all.
	Waits() bool
	// Arrived looks for it and says what has come; "" for nothing.
	Arrived() string
}

// watchEvery is how often it is looked for. Where no screen waits nothing happens
// while nobody types.
const watchEvery = 2 * time.Second

type watchMsg struct{}

// watch goes on looking for what the present screen waits for. There is one timer
// at the most.
func (a *App) watch() tea.Cmd {
	if a.watching || a.leaving() {
		return nil
	}
	if s, ok := a.Top().Screen.(waiter); !ok || !s.Waits() {
		return nil
	}
	a.watching = true
	return tea.Tick(watchEvery, func(time.Time) tea.Msg { return watchMsg{} })
}

// watched says what has come.
func (a *App) watched() {
	a.watching = false
	if s, ok := a.Top().Screen.(waiter); ok && s.Waits() {
		if said := s.Arrived(); said != "" {
			a.Version++
			a.Say(said)
		}
	}
}
