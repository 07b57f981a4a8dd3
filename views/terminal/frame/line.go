package frame

import (
	"unicode"

	bubbleskey "github.com/charmbracelet/bubbles/key"
	"github.com/charmbracelet/bubbles/textinput"
	tea "github.com/charmbracelet/bubbletea"
)

// MaxTyped is more than anything that is to be said takes, and than the path of a
// file that is dropped on the window.
const MaxTyped = 1024

// Line is the one line to type in. The zero line is empty.
type Line struct {
	input   *textinput.Model
	refused bool   // it was not understood: typing begins anew, any other key edits it
	why     string // it was refused, and is as it was then; "" = it may be sent
	before  string // what was typed over since
}

// refuse notes why the line was not taken.
func (l *Line) refuse(why string) {
	if !l.empty() {
		l.refused, l.why = true, why
	}
}

// clear empties the line; what stood in it can be brought back.
func (l *Line) clear() {
	if !l.empty() {
		l.before = l.String()
		l.Set("")
	}
}

// edited returns the input that holds the text and knows the usual editing
// keys. It is drawn by the page, and its cursor does not blink: nothing happens
// while nobody types.
func (l *Line) edited() *textinput.Model {
	if l.input == nil {
		m := textinput.New()
		m.CharLimit = MaxTyped
		m.KeyMap.Paste = bubbleskey.NewBinding(bubbleskey.WithDisabled()) // the terminal pastes; no other program is asked
		m.Focus()
		l.input = &m
	}
	return l.input
}

func (l *Line) Set(s string) {
	l.refused, l.why = false, ""
	l.edited().Reset()
	l.insert([]rune(s))
}

// typed types at the cursor; over what was refused it begins anew.
func (l *Line) typed(rs []rune) {
	if l.refused {
		l.clear()
	}
	l.insert(rs)
}

// recall brings back what was typed over; it reports false where nothing was.
func (l *Line) recall() bool {
	if l.before == "" {
		return false
	}
	l.Set(l.before)
	l.before = ""
	return true
}

// insert types at the cursor. What is no character, and what no longer fits,
// is left out; of several lines only the first is taken.
func (l *Line) insert(rs []rune) {
	var taken []rune
	for _, r := range rs {
		if r == '\n' || r == '\r' {
			break
		}
		if r == '\t' {
			r = ' '
		}
		if unicode.IsGraphic(r) {
			taken = append(taken, r)
		}
	}
	if len(taken) > 0 {
		// As pasted: several characters that come at once and are called as a key
		// is, such as home, would be taken for that key.
		l.edit(tea.KeyMsg{Type: tea.KeyRunes, Runes: taken, Paste: true})
	}
}

// edit takes a key that moves the cursor or changes the text.
func (l *Line) edit(k tea.KeyMsg) {
	was := l.String()
	m, _ := l.edited().Update(k)
	if l.input = &m; l.String() != was {
		l.why = ""
	}
}

func (l Line) String() string {
	if l.input == nil {
		return ""
	}
	return l.input.Value()
}

func (l Line) empty() bool { return l.String() == "" }

// shown returns the part of the line round the cursor that fits width columns,
// and where the cursor is in it. Characters are taken to be one column wide.
func (l Line) shown(width int) (text string, cursor int) {
	all, at := []rune(l.String()), 0
	if l.input != nil {
		at = l.input.Position()
	}
	from := max(0, at-max(0, width-1))
	to := min(len(all), from+max(0, width-1))
	return string(all[from:max(from, to)]), at - from
}
