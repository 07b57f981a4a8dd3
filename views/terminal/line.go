package terminal

import "unicode"

// maxTyped is more than anything that is to be said takes.
const maxTyped = 120

// line is the one line to type in.
type line struct {
	text    []rune
	at      int    // cursor
	refused bool   // it was not understood: typing begins anew, any other key edits it
	before  string // what was typed over since
}

func (l *line) set(s string) {
	l.text = l.text[:0]
	l.at, l.refused = 0, false
	l.insert([]rune(s))
}

// typed types at the cursor; over what was refused it begins anew.
func (l *line) typed(rs []rune) {
	if l.refused {
		l.before = l.String()
		l.set("")
	}
	l.insert(rs)
}

// recall brings back what was typed over; it reports false where nothing was.
func (l *line) recall() bool {
	if l.before == "" {
		return false
	}
	l.set(l.before)
	l.before = ""
	return true
}

// insert types at the cursor. What is no character, and what no longer fits,
// is left out; of several lines only the first is taken.
func (l *line) insert(rs []rune) {
	for _, r := range rs {
		if r == '\n' || r == '\r' {
			return
		}
		if r == '\t' {
			r = ' '
		}
		if !unicode.IsGraphic(r) || len(l.text) >= maxTyped {
			continue
		}
		l.text = append(l.text, 0)
		copy(l.text[l.at+1:], l.text[l.at:])
		l.text[l.at] = r
		l.at++
	}
}

func (l *line) backspace() {
	if l.at > 0 {
		l.text = append(l.text[:l.at-1], l.text[l.at:]...)
		l.at--
	}
}

func (l *line) delete() {
	if l.at < len(l.text) {
		l.text = append(l.text[:l.at], l.text[l.at+1:]...)
	}
}

func (l *line) move(by int) { l.at = max(0, min(len(l.text), l.at+by)) }

// word removes the word before the cursor.
func (l *line) word() {
	for l.at > 0 && l.text[l.at-1] == ' ' {
		l.backspace()
	}
	for l.at > 0 && l.text[l.at-1] != ' ' {
		l.backspace()
	}
}

func (l line) String() string { return string(l.text) }

// shown returns the part of the line round the cursor that fits width columns,
// and where the cursor is in it. Characters are taken to be one column wide.
func (l line) shown(width int) (text string, cursor int) {
	from := max(0, l.at-max(0, width-1))
	to := min(len(l.text), from+max(0, width-1))
	return string(l.text[from:max(from, to)]), l.at - from
}
