// Package talk is the face for ears: plain questions and answers, a line each,
// for a screen reader, a braille display or a serial line. It draws nothing
// and writes no escape codes.
package talk

import (
	"bufio"
	"errors"
	"fmt"
	"io"
	"strings"

	"spotward/session"
	"spotward/session/answer"
	"spotward/session/header"
	"spotward/views/desk"
)

// Run plays a session over typed lines until it is over, quit, or r ends. The
// work is closed then.
func Run(w *desk.Work, r io.Reader, out io.Writer) error {
	t := &talk{work: w, lines: bufio.NewReader(r), voice: newVoice(out)}
	if err := t.run(); err != nil {
		return errors.Join(err, t.closed())
	}
	return t.voice.err
}

type talk struct {
	work  *desk.Work
	lines *bufio.Reader
	voice

	stage  session.StageID
	header header.HeaderWords // said last
	goal   string
	placed map[string]bool // screws and locks of which it was said where they are
	beam   string          // where the beam comes out, as it was said last
	warned map[session.StageID]bool
}

func (t *talk) run() error {
	t.warned = map[session.StageID]bool{}
	t.welcome()
	t.ask()
	for {
		line, err := readLine(t.lines)
		if err != nil {
			if !errors.Is(err, io.EOF) {
				return fmt.Errorf("reading what was typed: %w", err)
			}
			return t.left()
		}
		if !answer.Begins(t.work.Shown().Ask(), line) && t.word(line) {
			continue
		}
		if offer := t.offer(line); offer != "" {
			t.say(offer)
			continue
		}
		taken := t.take(line)
		switch {
		case t.work.Over():
			return t.end()
		case taken:
			t.ask()
		}
	}
}

// take sends a typed line and reports whether it was taken. One that cannot be
// is answered by one line; the session stands as it was.
func (t *talk) take(line string) bool {
	asked := t.work.Shown().Ask()
	echo, err := t.work.Line(line)
	if err != nil {
		t.say("Not accepted: " + full(err.Error()))
		return false
	}
	if t.work.Pictured() != nil {
		t.pictured()
		return false
	}
	if echo != "" {
		t.say("Understood: " + full(echo))
	}
	t.say(t.work.Felt())
	if !t.work.Over() {
		t.outcome(asked)
	}
	return true
}

// outcome says what the answer has come to, where that is more than the next
// question shows.
func (t *talk) outcome(asked session.Ask) {
	s := t.work.State()
	if e, most, ok := s.AxisError(); ok && asked.Want == session.WantReading && s.Ask().Want != session.WantChoice && s.Ask().Told == nil {
		t.axisError(e, most, s.AllowedMM())
	}
}

// left ends a session whose lines have ended before it was over.
func (t *talk) left() error {
	t.sayf("The lines have ended before the work was done. Nothing is lost.%s", t.howOn())
	return t.closed()
}

func (t *talk) closed() error {
	_, err := t.work.Close()
	return err
}

func (t *talk) howOn() string {
	if !t.work.Session.Kept() {
		return " But nothing of it is saved, or not all."
	}
	return fmt.Sprintf(" Go on with: spotward talk --resume %s.", t.work.State().ID)
}

// end says how the session ended.
func (t *talk) end() error {
	s := t.work.State()
	id, err := t.work.Close()
	if err != nil {
		return err
	}
	if !s.Over {
		t.say("Left here." + t.howOn())
		return nil
	}
	t.cameTo(s)
	if s.Left.ErrKnown {
		t.axisError(s.Left.ErrMM, s.Left.ErrMaxMM, s.AllowedMM())
	}
	t.counts(s)
	if t.work.Bench != nil {
		for _, line := range t.work.Bench.Afterwards() {
			t.say(line)
		}
	}
	if id != "" {
		t.sayf("Record: %s.", id)
	}
	return nil
}

// maxTyped is more than anybody types in a line, bytes.
const maxTyped = 4 << 10

// readLine reads a line without its end. Of a longer one only the beginning is
// kept: it will not be understood, and memory does not grow with it.
func readLine(r *bufio.Reader) (string, error) {
	var line []byte
	for {
		part, err := r.ReadSlice('\n')
		if len(line) < maxTyped {
			line = append(line, part...)
		}
		switch {
		case errors.Is(err, bufio.ErrBufferFull):
		case err != nil && len(line) == 0:
			return "", err
		default:
			return strings.TrimSpace(string(line)), nil
		}
	}
}
