package terminal

import (
	"errors"
	"strings"

	tea "github.com/charmbracelet/bubbletea"
)

// key is a word that works, and the function key that enters it.
type key struct {
	f     string // "F1", "enter", "esc"; "" = typed only
	word  string // what it enters
	label string // in the footer
}

// fKeys are the words that function keys enter. A key does nothing that its
// word would not.
func fKeys() []key {
	return []key{
		{"F1", "help", "help"},
		{"F2", "why", "why"},
		{"F3", "view", "view"},
		{"F4", "theme", "theme"},
		{"F5", "=", "cued"},
		{"F6", "do", "to do"},
		{"F7", "back", "back"},
		{"F8", "undo", "undo"},
		{"F9", "large", "large"},
		{"F10", "stop safely", "stop safely"},
	}
}

// keyFor returns the key that enters a word.
func keyFor(word string) key {
	for _, k := range fKeys() {
		if k.word == word {
			return k
		}
	}
	return key{word: word, label: word}
}

// footer returns keys for the footer: enter first, and what escape does last.
func footer(enter, esc string, words ...string) []key {
	keys := []key{{"enter", "", enter}}
	for _, w := range words {
		keys = append(keys, keyFor(w))
	}
	return append(keys, key{"esc", "", esc})
}

var errNoSuspend = errors.New("there is no shell here to come back from: pause with Esc instead")

// key takes a key. Letters only ever type.
func (a *app) key(k tea.KeyMsg) tea.Cmd {
	slept := !a.lastKey.IsZero() && a.now().Sub(a.lastKey) > asleep
	a.lastKey = a.now()
	a.note, a.bad, a.fromLine = "", false, false
	if slept && a.wake() {
		return nil
	}
	l := &a.top().line
	switch k.Type {
	case tea.KeyCtrlC:
		return a.interrupt()
	case tea.KeyCtrlZ:
		if !canSuspend() {
			a.fail(errNoSuspend)
			return nil
		}
		return tea.Suspend
	case tea.KeyCtrlL:
		return tea.ClearScreen
	case tea.KeyEsc:
		a.version++
		a.top().esc(a)
		if len(a.stack) == 0 {
			return a.quit()
		}
		return nil
	case tea.KeyEnter:
		if l.why != "" {
			a.refuseAgain(l)
			return nil
		}
		a.fromLine = true
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
		if strings.EqualFold(k.String(), f.f) {
			return a.enter(f.word)
		}
	}
	a.edit(k, l)
	return nil
}

// refuseAgain answers Enter on a line that was refused: the same again would be
// refused again, or, worse, be taken for a yes.
func (a *app) refuseAgain(l *line) {
	l.refused = true
	a.note, a.bad = l.why+"; Enter does not send the same again: edit it, or Ctrl-U clears it", true
}

// stepper is a screen that some keys step through while nothing is typed.
type stepper interface {
	stepKey(a *app, k tea.KeyType) bool
}

// edit takes the keys that change the line, and the arrows.
func (a *app) edit(k tea.KeyMsg, l *line) {
	if s, ok := a.top().screen.(stepper); ok && l.empty() && s.stepKey(a, k.Type) {
		return
	}
	l.refused = false
	switch k.Type {
	case tea.KeyCtrlY:
		l.recall()
	case tea.KeyCtrlU:
		l.clear()
	case tea.KeyUp:
		if !a.nudge(l, 0, 1) {
			l.recall()
		}
	case tea.KeyDown:
		a.nudge(l, 0, -1)
	case tea.KeyLeft:
		if !a.nudge(l, -1, 0) {
			l.edit(k)
		}
	case tea.KeyRight:
		if !a.nudge(l, 1, 0) {
			l.edit(k)
		}
	default:
		l.edit(k)
	}
}

// nudge moves the place that is typed by a step, if the line holds one.
func (a *app) nudge(l *line, right, up int) bool {
	n, ok := a.top().screen.(nudger)
	if !ok {
		return false
	}
	text, ok := n.nudge(l.String(), right, up)
	if ok {
		l.set(text)
		a.version++ // it may have moved more than the line
	}
	return ok
}

// interrupt leaves at once: whatever was accepted is on disk.
func (a *app) interrupt() tea.Cmd {
	for _, s := range a.stack {
		if s, ok := s.screen.(leaver); ok {
			s.abandon(a)
		}
	}
	a.exit = exitInterrupted
	return a.quit()
}
