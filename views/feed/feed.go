// Package feed is the face for programs: JSON lines in and out.
package feed

import (
	"bufio"
	"encoding/json"
	"errors"
	"fmt"
	"io"

	"spotward/session"
	"spotward/session/event"
)

// maxLine is the longest line that is read, bytes.
const maxLine = 64 << 10

// Sender is a session in hand.
type Sender interface {
	State() session.State
	Send(...event.Event) error
}

// Run plays a session over lines until it is over, quit, or r ends. record
// is called when the session is over and returns the id of its record. It
// returns whether a last line was written, and an error of reading or writing.
func Run(s Sender, r io.Reader, w io.Writer, record func() (string, error)) (ended bool, err error) {
	f := &feed{session: s, enc: json.NewEncoder(w)}
	f.enc.SetEscapeHTML(false)
	if err := f.ask(); err != nil {
		return false, err
	}
	lines := bufio.NewReaderSize(r, maxLine)
	for {
		line, tooLong, err := readLine(lines)
		if err != nil && len(line) == 0 {
			if errors.Is(err, io.EOF) {
				return false, nil
			}
			return false, fmt.Errorf("reading the feed: %w", err)
		}
		over, err := f.take(line, tooLong)
		if err != nil {
			return false, err
		}
		if over {
			id, err := record()
			if err != nil {
				return false, err
			}
			return true, f.enc.Encode(done(f.n+1, s.State(), id))
		}
	}
}

// readLine reads a line without its end. What is longer than maxLine is
// dropped, so that memory does not grow with what is sent.
func readLine(r *bufio.Reader) (line []byte, tooLong bool, err error) {
	for {
		part, err := r.ReadSlice('\n')
		if errors.Is(err, bufio.ErrBufferFull) {
			tooLong = true
			continue
		}
		return part, tooLong, err
	}
}

type feed struct {
	session Sender
	enc     *json.Encoder
	n       int
}

func (f *feed) ask() error {
	f.n++
	return f.enc.Encode(out(f.n, f.session.State()))
}

// take takes one line in; it reports whether the session is over or quit.
func (f *feed) take(line []byte, tooLong bool) (over bool, err error) {
	if tooLong {
		return false, f.wrong(fmt.Errorf("a line of more than %d bytes: one short answer a line", maxLine))
	}
	ev, err := parse(line, f.session.State(), f.photo)
	if err != nil {
		return false, f.wrong(err)
	}
	if err := f.session.Send(ev); err != nil {
		return false, f.wrong(err)
	}
	if f.session.State().Over || ev.Kind == event.KindQuit {
		return true, nil
	}
	return false, f.ask()
}

// reader is a sender that can read a picture's file: what it shows is the reading.
type reader interface {
	Photo(path string) (event.Event, error)
}

func (f *feed) photo(path string) (event.Event, error) {
	r, ok := f.session.(reader)
	if !ok {
		return event.Event{}, errors.New("no pictures are read here: send a reading")
	}
	return r.Photo(path)
}

func (f *feed) wrong(err error) error {
	return f.enc.Encode(Wrong{V: 1, N: f.n, Error: err.Error(), Want: f.session.State().Ask().Want})
}
