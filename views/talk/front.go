package talk

import (
	"bufio"
	"errors"
	"fmt"
	"io"
	"strconv"
	"strings"

	"spotward/optics/virtual"
	"spotward/session/event"
	"spotward/session/journal"
	"spotward/session/lesson"
	"spotward/session/scope"
	"spotward/views/desk"
	"spotward/views/teach"
)

// Front asks what is to be done, plays it, and returns the session; nil when r
// ended or the person left before one was begun.
func Front(d *desk.Desk, r io.Reader, out io.Writer) (*desk.Work, error) {
	f := &front{desk: d, lines: bufio.NewReader(r), voice: newVoice(out)}
	w, err := f.choose()
	if w == nil || err != nil {
		return nil, err
	}
	return w, Run(w, f.lines, out)
}

type front struct {
	desk  *desk.Desk
	lines *bufio.Reader
	voice
}

// begin begins or takes up a session; nil work and nil error: nothing was
// chosen after all.
type begin func() (*desk.Work, error)

type choice struct {
	words string
	begin begin
}

var errLeft = errors.New("left")

func (f *front) choose() (*desk.Work, error) {
	f.say("Spotward aligns the two mirrors of a Newtonian, one screw at a time. What is to be done?")
	choices := f.choices()
	begin, err := f.pick(choices)
	if errors.Is(err, errLeft) {
		return nil, f.err
	}
	if err != nil {
		return nil, err
	}
	w, err := f.start(begin)
	if errors.Is(err, errLeft) {
		return nil, f.err
	}
	return w, err
}

// start begins a session; where it cannot be kept, without a record if that is
// chosen.
func (f *front) start(begin begin) (*desk.Work, error) {
	w, err := begin()
	var unkept *journal.UnkeptError
	if !errors.As(err, &unkept) || f.desk.Unkept {
		return w, err
	}
	f.say("Noted: " + full(err.Error()))
	if _, err := f.pick([]choice{{words: "Go on without a record"}}); err != nil {
		return nil, err
	}
	f.desk.Unkept = true
	return begin()
}

func (f *front) choices() []choice {
	all := []choice{
		{"Practise on a telescope that is not real", f.practise},
		{"Take a lesson: short exercises, from safe hands to a whole alignment", f.lessons},
	}
	if f.desk.Library == nil {
		return all
	}
	open, errs := f.desk.Library.Unfinished("")
	for i, u := range open {
		if i == manyOpen {
			break
		}
		all = append(all, choice{
			fmt.Sprintf("Go on with %s, left unfinished on %s", u.Scope, u.Last.Local().Format("2 January at 15:04")),
			func() (*desk.Work, error) { return f.desk.TakeUp(u.ID) },
		})
	}
	scopes, more := f.desk.Library.Scopes()
	for _, s := range scopes {
		all = append(all,
			choice{"Align " + s.Name, func() (*desk.Work, error) { return f.desk.Align(s, false) }},
			choice{"Check " + s.Name + ": the first look alone", func() (*desk.Work, error) { return f.desk.Align(s, true) }})
	}
	for _, err := range append(errs, more...) {
		f.say("Noted: " + full(err.Error()))
	}
	return all
}

// lessons has lessons taken, one after the other, until the person leaves.
func (f *front) lessons() (*desk.Work, error) {
	for f.err == nil {
		results, err := teach.Results(f.desk)
		if err != nil {
			f.say("Noted: " + full(err.Error()))
		}
		best := teach.Progress(results)
		var ladder []choice
		for _, l := range lesson.All() {
			words := l.Title
			if r, ok := best[l.ID]; ok {
				words += ", " + teach.PassedWords(r)
			}
			ladder = append(ladder, choice{words, func() (*desk.Work, error) { return nil, f.teach(l) }})
		}
		f.say("Which lesson?")
		begin, err := f.pick(ladder)
		if err != nil {
			return nil, err
		}
		if _, err := begin(); err != nil {
			return nil, err
		}
	}
	return nil, f.err
}

func (f *front) teach(l lesson.Lesson) error {
	class, err := teach.Begin(f.desk, teach.Draw(f.desk, l, f.desk.NewSeed()))
	if err != nil {
		return err
	}
	return Lesson(class, f.lines, f.out)
}

// manyOpen is how many unfinished sessions are offered, newest first.
const manyOpen = 3

// practise asks how hard it is to be.
func (f *front) practise() (*desk.Work, error) {
	f.say("How hard?")
	start := func(l virtual.Level) begin {
		return func() (*desk.Work, error) {
			return f.desk.Practice(scope.Builtin(), event.World{Seed: desk.NewSeed(), Level: string(l)})
		}
	}
	begin, err := f.pick([]choice{
		{"Easy: everything tight, a true laser", start(virtual.Easy)},
		{"Usual: a telescope that has been carried", start(virtual.Usual)},
		{"Hard: a poor laser, odd labels, a sticky screw", start(virtual.Hard)},
	})
	if err != nil {
		return nil, err
	}
	return f.start(begin)
}

// pick says the choices and reads a number until one is meant.
func (f *front) pick(choices []choice) (begin, error) {
	for i, c := range choices {
		f.sayf("%d: %s", i+1, full(c.words))
	}
	f.say("Type a number, or quit.")
	for f.err == nil {
		line, err := readLine(f.lines)
		if errors.Is(err, io.EOF) {
			return nil, errLeft
		}
		if err != nil {
			return nil, fmt.Errorf("reading what was typed: %w", err)
		}
		switch n, err := strconv.Atoi(line); {
		case strings.EqualFold(line, "quit") || strings.EqualFold(line, "q"):
			return nil, errLeft
		case err == nil && n >= 1 && n <= len(choices):
			return choices[n-1].begin, nil
		}
		f.sayf("Not accepted: a number from 1 to %d is wanted, or quit.", len(choices))
	}
	return nil, f.err
}
