// Package thrift writes to a terminal over a slow line: of what is drawn it
// sends only what changes. It stands between the library that draws whole lines
// and the terminal.
//
// Words are sent whole, with those beside them, so that a log of what was sent
// can be read and searched.
//
// What it does not understand it hands on as it is, and begins afresh.
package thrift

import (
	"io"
	"sync"
	"unicode/utf8"
)

// File is a terminal.
type File interface {
	io.ReadWriteCloser
	Fd() uintptr
}

// Terminal is a terminal that is sent only what changes. Everything that is drawn
// on it must go through it.
type Terminal struct {
	File
	size func() (cols, rows int)

	mu    sync.Mutex
	drawn bool // on the alternate screen: elsewhere all goes through
	have  grid // what the terminal shows
	want  grid // what it is to show
	sent  pen  // where the terminal's cursor stands, and how it writes
	out   []byte
}

// New returns t with thrift. size tells how large its window is.
func New(t File, size func() (cols, rows int)) *Terminal {
	return &Terminal{File: t, size: size}
}

// WriteString is like Write.
func (t *Terminal) WriteString(s string) (int, error) { return t.Write([]byte(s)) }

// Write draws p, which is whole: no character and no sequence goes on in the
// next one.
func (t *Terminal) Write(p []byte) (int, error) {
	t.mu.Lock()
	defer t.mu.Unlock()
	if cols, rows := t.size(); cols != t.want.cols || rows != t.want.rows {
		t.forget(cols, rows)
	}
	t.out = t.out[:0]
	if !t.draw(p) {
		t.sync()
		t.out = append(t.out, p...)
		t.forget(t.want.cols, t.want.rows)
	}
	if _, err := t.File.Write(t.out); err != nil {
		return 0, err
	}
	return len(p), nil
}

// forget takes nothing for known of what the terminal shows.
func (t *Terminal) forget(cols, rows int) {
	t.have, t.want, t.sent = newGrid(cols, rows), newGrid(cols, rows), pen{}
}

// draw brings p into what is wanted and puts what has to be sent for it into
// out. It reports false, and has put nothing there, when it does not understand
// p.
func (t *Terminal) draw(p []byte) bool {
	if !t.drawn || !t.sent.known && !startsKnown(p) {
		t.drawn = entersAlternate(p, t.drawn)
		return false
	}
	next := t.want.clone()
	modes, ok := next.take(p)
	if !ok {
		t.drawn = entersAlternate(p, t.drawn)
		return false
	}
	t.want = next
	t.out = append(t.out, modes...)
	t.differ()
	return true
}

// sync brings the terminal's cursor to where it would be without thrift.
func (t *Terminal) sync() {
	if t.sent.known && t.want.pen.known && t.sent != t.want.pen {
		t.out = move(t.out, t.sent, t.want.pen.x, t.want.pen.y)
		t.out = restyle(t.out, t.sent.style, t.want.pen.style)
	}
}

// differ sends the cells in which what is wanted is not what is there.
func (t *Terminal) differ() {
	if !t.sent.known {
		t.sent = pen{known: true, x: -1, y: -1} // the first move is an absolute one
		t.out = append(t.out, "\x1b[m"...)
	}
	for y := range t.want.rows {
		row, there := t.want.row(y), t.have.row(y)
		end := blankFrom(row)
		for x, changed := range changes(row[:end], there) {
			if changed {
				t.send(x, y, row)
			}
		}
		for x := end; x < len(row); x++ {
			if row[x] != there[x] {
				t.erase(end, y)
				break
			}
		}
	}
	copyKnown(t.have.cells, t.want.cells)
}

// send sends the cell at x, y, and rather than to step over a few that are as
// they should be, those too.
func (t *Terminal) send(x, y int, row []cell) {
	if t.sent.y == y && t.sent.x < x && t.sent.x >= 0 && x-t.sent.x <= len("\x1b[1C")-1 {
		same := true
		for i := t.sent.x; i < x; i++ {
			same = same && row[i].known && t.looks(row[i]) && row[i].r < utf8.RuneSelf
		}
		for i := t.sent.x; same && i < x; i++ {
			t.out = append(t.out, string(row[i].r)...)
		}
		if same {
			t.sent.x = x
		}
	}
	t.out = move(t.out, t.sent, x, y)
	if !t.looks(row[x]) {
		t.out = restyle(t.out, t.sent.style, row[x].style)
		t.sent.style = row[x].style
	}
	t.out = append(t.out, string(row[x].r)...)
	t.sent.x, t.sent.y = x+1, y
	if t.sent.x == t.want.cols {
		t.sent.x, t.sent.y = -1, -1 // at the edge terminals differ
	}
}

// looks reports whether a cell's character, written as the terminal writes now,
// looks as it should.
func (t *Terminal) looks(c cell) bool {
	return c.style == t.sent.style || c == blank() && t.sent.style.clear()
}

// erase clears a row from x on.
func (t *Terminal) erase(x, y int) {
	t.out = move(t.out, t.sent, x, y)
	if !t.sent.style.clear() {
		t.out = restyle(t.out, t.sent.style, style{})
		t.sent.style = style{}
	}
	t.out = append(t.out, "\x1b[K"...)
	t.sent.x, t.sent.y = x, y
}
