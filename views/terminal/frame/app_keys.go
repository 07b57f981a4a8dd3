package frame

import (
	"errors"
	"strings"

	tea "github.com/charmbracelet/bubbletea"
)

// Key is a word that works, and the function key that enters it.
type Key struct {
	F     string // "F1", "enter", "esc"; "" = typed only
	Word  string // what it enters
	Label string // in the footer
}

// fKeys are the words that function keys enter. A key does nothing that its
// word would not.
func fKeys() []Key {
	return []Key{
		{"F1", "help", "help"},
		{"F2", "why", "why"},
		{"F3", "view", "view"},
		{"F4", "theme", "theme"},
		{"F5", "=", "at stop"},
		{"F6", "do", "to do"},
		{"F7", "back", "back"},
		{"F8", "undo", "undo"},
		{"F9", "large", "large"},
		{"F10", "stop safely", "stop safely"},
		{"F12", "anew", "the same again"},
	}
}

// KeyFor returns the key that enters a word.
func KeyFor(word string) Key {
	for _, k := range fKeys() {
		if k.Word == word {
			return k
		}
	}
	return Key{Word: word, Label: word}
}

// Footer returns keys for the footer: enter first, and what escape does last.
func Footer(enter, esc string, words ...string) []Key {
	keys := []Key{{"enter", "", enter}}
	for _, w := range words {
		keys = append(keys, KeyFor(w))
	}
	return append(keys, Key{"esc", "", esc})
}

var errNoSuspend = errors.New("there is no shell here to come back from: pause with Esc instead")

// key takes a key. Letters only ever type.
func (a *App) key(k tea.KeyMsg) tea.Cmd {
	slept := !a.LastKey.IsZero() && a.Now().Sub(a.LastKey) > Asleep
	a.LastKey = a.Now()
	a.Note, a.Bad, a.FromLine = "", false, false
	if slept && a.wake() {
		return nil
	}
	l := &a.Top().Line
	switch k.Type {
	case tea.KeyCtrlC:
		return a.Interrupt()
	case tea.KeyCtrlZ:
		if !canSuspend() {
			a.Fail(errNoSuspend)
			return nil
		}
		return tea.Suspend
	case tea.KeyCtrlL:
		return tea.ClearScreen
	case tea.KeyEsc:
		a.Version++
		a.Top().Esc(a)
		if len(a.Stack) == 0 {
			return a.Quit()
		}
		return nil
	case tea.KeyEnter, tea.KeyCtrlJ: // typed before the page was there, Enter comes as a line's end
		if l.why != "" {
			a.refuseAgain(l)
			return nil
		}
		a.FromLine = true
		return a.enter(l.String())
	case tea.KeyRunes, tea.KeySpace:
		if l.empty() && !k.Paste && string(k.Runes) == "?" {
			return a.enter("?")
		}
		if !k.Alt {
			l.typed(k.Runes)
		}
		return nil
	}
	for _, f := range fKeys() {
		if strings.EqualFold(k.String(), f.F) {
			return a.enter(f.Word)
		}
	}
	a.edit(k, l)
	return nil
}

// refuseAgain answers Enter on a line that was refused: the same again would be
// refused again, or, worse, be taken for a yes.
func (a *App) refuseAgain(l *Line) {
	l.refused = true
	a.Note, a.Bad = l.why+"; Enter does not send the same again: edit it, or Ctrl-U clears it", true
}

// stepper is a screen that some keys step through while nothing is typed.
type stepper interface {
	StepKey(a *App, k tea.KeyType) bool
}

// edit takes the keys that change the line, and the arrows.
func (a *App) edit(k tea.KeyMsg, l *Line) {
	if s, ok := a.Top().Screen.(stepper); ok && l.empty() && s.StepKey(a, k.Type) {
		return
	}
	l.refused = false
	switch k.Type {
	case tea.KeyCtrlY:
		l.recall()
	case tea.KeyCtrlU:
		l.clear()
	case tea.KeyUp:
		if !a.Nudge(l, 0, 1) {
			l.recall()
		}
	case tea.KeyDown:
		a.Nudge(l, 0, -1)
	case tea.KeyLeft:
		if !a.Nudge(l, -1, 0) {
			l.edit(k)
		}
	case tea.KeyRight:
		if !a.Nudge(l, 1, 0) {
			l.edit(k)
		}
	default:
		l.edit(k)
	}
}

// Nudge moves the place that is typed by a step, if the line holds one.
func (a *App) Nudge(l *Line, right, up int) bool {
	n, ok := a.Top().Screen.(nudger)
	if !ok {
		return false
	}
	text, ok := n.Nudge(l.String(), right, up)
	if ok {
		l.Set(text)
		a.Version++ // it may have moved more than the line
	}
	return ok
}

// Interrupt leaves at once: whatever was accepted is on disk.
func (a *App) Interrupt() tea.Cmd {
	for _, s := range a.Stack {
		if s, ok := s.Screen.(Leaver); ok {
			s.Abandon(a)
		}
	}
	a.Exit = ExitInterrupted
	return a.Quit()
}
