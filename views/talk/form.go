package talk

import (
	"bufio"
	"errors"
	"fmt"
	"io"
	"strings"

	"spotward/session/scope"
	"spotward/session/shelf"
)

// Describe asks a form's questions until what it describes is kept, which it
// reports, or it is left. What was answered is in its draft then.
//
// Where nobody is there to mend a refused answer, piped, it ends there: what
// follows would answer other questions.
func Describe(l *shelf.Shelf, f *scope.Form, piped bool, r io.Reader, out io.Writer) (kept bool, err error) {
	d := &describing{library: l, Form: f, piped: piped, lines: bufio.NewReader(r), voice: newVoice(out)}
	kept, err = d.run()
	return kept, errors.Join(err, d.err)
}

type describing struct {
	library *shelf.Shelf
	*scope.Form
	lines *bufio.Reader
	piped bool
	voice
}

func (d *describing) run() (bool, error) {
	d.say("An empty line leaves a question out. Back goes to the one before, done leaves out the rest, quit leaves.")
	if d.Continued {
		d.say("This goes on where it was left.")
		if !d.IsEdit() {
			d.say("Afresh starts over.")
		}
	}
	d.ask()
	for d.err == nil {
		line, err := readLine(d.lines)
		if err != nil && !errors.Is(err, io.EOF) {
			return false, fmt.Errorf("reading what was typed: %w", err)
		}
		if err != nil {
			return d.left()
		}
		step, err := d.Take(line)
		switch {
		case err != nil:
			d.say("Not accepted: " + full(err.Error()))
			if d.piped {
				d.say("It stops here: what follows was not read.")
				return d.left()
			}
			continue
		case step == scope.FormLeave:
			return d.left()
		case step == scope.FormKeep:
			return d.keep()
		}
		if err := d.library.KeepDraft(d.Form); err != nil {
			d.say("Noted: " + full(err.Error()))
		}
		d.ask()
	}
	return false, nil
}

// left keeps what was answered for the next time. It reports whether all is as
// it is to be: what was only looked at is.
func (d *describing) left() (bool, error) {
	if err := d.library.KeepDraft(d.Form); err != nil {
		return false, err
	}
	if d.IsEdit() && !d.Changed() {
		d.say(full(d.Title() + " is as it was"))
		return true, nil
	}
	d.say("Nothing is saved yet. What was answered is there when you come back.")
	return false, nil
}

func (d *describing) keep() (bool, error) {
	if err := d.library.KeepForm(d.Form); err != nil {
		return false, err
	}
	d.say(full(d.Title() + " is saved"))
	return true, nil
}

// ask says the question that is asked now, or all that was said.
func (d *describing) ask() {
	q, n, of, asked := d.Asked()
	if !asked {
		d.lookOver()
		return
	}
	d.sayf("%d of %d: %s", n, of, q.Ask)
	d.say(q.How)
	for i, o := range q.Pick {
		if o.Words == o.ID {
			d.sayf("%d: %s", i+1, full(o.Words))
			continue
		}
		d.sayf("%d: %s, %s", i+1, o.ID, full(o.Words))
	}
	d.say(d.Usual(q))
	switch said, guess := d.Said(q), d.Estimate(q); {
	case said != "":
		d.sayf("So far: %s. Enter leaves it so, unknown takes it out.", said)
	case guess != "":
		d.sayf("If you skip it, %s is assumed, as an estimate.", guess)
	}
}

// lookOver says all that was said, and what is estimated.
func (d *describing) lookOver() {
	d.say("This is what will be saved.")
	var guessed []string
	for i, q := range d.Due() {
		switch said, guess := d.Said(q), d.Estimate(q); {
		case said != "":
			d.sayWhole(fmt.Sprintf("%d: %s, %s.", i+1, q.Name, said))
		case guess != "":
			guessed = append(guessed, fmt.Sprintf("%d: %s, about %s", i+1, q.Name, guess))
		}
	}
	if len(guessed) > 0 {
		d.sayWhole("Estimated: " + strings.Join(guessed, "; ") + ".")
	}
	d.say("An empty line keeps it, a number asks that question again.")
}
