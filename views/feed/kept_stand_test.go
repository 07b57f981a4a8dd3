package feed_test

import (
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"strings"

	"spotward/optics"
	"spotward/session"
	"spotward/session/event"
	"spotward/session/scope"
	"spotward/views/feed"
)

// A kept session is text, a thing a line. What goes in follows a mark, what
// comes out has none:
//
//	> {"confirm":true}
//	{"v":1,"n":2, ...}
//
// and an order says what happens around the lines.
const (
	markIn    = "> "
	markOrder = "! "
	markFault = "? " // it could not go on
)

// The orders.
const (
	orderBegin = "begin "   // and a scope's name, and how, if not as any
	orderAgain = "again"    // a session on the same scope begins, with what was learnt
	orderUp    = "taken up" // from what was kept
	orderFull  = "full"     // the next answer cannot be kept
	orderLong  = "long"     // a line that is too long goes in
	orderLost  = "lost"     // the lines end without a quit
)

// How a session begins: the first look alone; all screws before the next look;
// somebody watches the spot while a screw is turned.
const (
	beginCheck   = "check"
	beginWhole   = "whole"
	beginWatched = "watched"
)

// stand is where a kept session is played: the session in hand, and what is
// kept of it, as a journal would keep it.
type stand struct {
	scopes  map[string]scope.Scope
	scope   scope.Scope
	session *session.Session
	kept    []keptEvent
	full    bool
	lines   []string // the transcript
}

type keptEvent struct {
	kind event.Kind
	body []byte
}

// Keep keeps events in memory.
func (s *stand) Keep(events ...event.Event) error {
	if s.full {
		s.full = false
		return errors.New("the session cannot be kept: no room left")
	}
	for _, ev := range events {
		body, err := json.Marshal(ev)
		if err != nil {
			return err
		}
		s.kept = append(s.kept, keptEvent{ev.Kind, body})
	}
	return nil
}

// State and Send make it what feed.Run plays.
func (s *stand) State() session.State { return s.session.State() }

func (s *stand) Send(events ...event.Event) error { return direct{s.session}.Send(events...) }

// starts reports whether a line is an order with which a session begins.
func starts(line string) bool {
	order, ok := strings.CutPrefix(line, markOrder)
	return ok && (strings.HasPrefix(order, orderBegin) || order == orderAgain || order == orderUp)
}

func (s *stand) start(line string) error {
	order := strings.TrimPrefix(line, markOrder)
	begin := event.Event{ID: "kept"}
	var manner []event.Event
	switch order {
	case orderUp:
		events := make([]event.Event, len(s.kept))
		for i, k := range s.kept {
			if err := json.Unmarshal(k.body, &events[i]); err != nil {
				return err
			}
			events[i].Kind = k.kind
		}
		up, err := session.TakeUp(events, s, nil)
		if err == nil {
			s.session = up
		}
		return err
	case orderAgain:
		begin.Learnt = map[optics.Mirror]*event.Taught{}
		for _, m := range []optics.Mirror{optics.Secondary, optics.Primary} {
			begin.Learnt[m] = s.State().Learnt(m)
		}
	default:
		name, how, _ := strings.Cut(strings.TrimPrefix(order, orderBegin), " ")
		scope, ok := s.scopes[name]
		if !ok {
			return fmt.Errorf("no scope %q in testdata", name)
		}
		s.scope, begin.Check = scope, how == beginCheck
		switch how {
		case beginWhole:
			manner = []event.Event{{Kind: event.KindManner, Whole: ptr(true)}}
		case beginWatched:
			manner = []event.Event{{Kind: event.KindManner, Watching: ptr(true)}}
		}
	}
	begin.Scope, s.kept = &s.scope, nil
	begun, err := session.Start(begin, s)
	s.session = begun
	if err == nil && manner != nil {
		err = s.Send(manner...)
	}
	return err
}

// run plays lines in until there are no more, and returns the transcript. next
// is given the line that came out last.
func (s *stand) run(next func(last string) (string, bool)) (lines []string) {
	defer func() {
		if fault := recover(); fault != nil {
			lines = append(s.lines, fmt.Sprint(markFault, "fault: ", fault))
		}
	}()
	r := &linesIn{stand: s, next: next}
	for line, ok := r.start(); ok; line, ok = r.start() {
		s.lines = append(s.lines, line)
		err := s.start(line)
		if err == nil {
			_, err = feed.Run(s, r, r, func() (string, error) { return "kept", nil })
		}
		if err != nil {
			return append(s.lines, markFault+err.Error())
		}
	}
	return s.lines
}

// linesIn reads what goes in, line by line, and writes what comes out, so that
// each stands in the transcript where it came.
type linesIn struct {
	stand  *stand
	next   func(last string) (string, bool)
	rest   string // of a line that is being read
	coming string // an order to begin, that has ended the lines before it
}

func (r *linesIn) take() (string, bool) {
	last := ""
	if n := len(r.stand.lines); n > 0 {
		last = r.stand.lines[n-1]
	}
	return r.next(last)
}

// start returns the next order to begin. What goes in before it has no session
// to go to.
func (r *linesIn) start() (line string, ok bool) {
	line, ok = r.coming, r.coming != ""
	for !ok {
		if line, ok = r.take(); !ok {
			return "", false
		}
		ok = starts(line)
	}
	r.coming, r.rest = "", ""
	return line, true
}

func (r *linesIn) Read(b []byte) (int, error) {
	for r.rest == "" {
		line, ok := r.take()
		switch {
		case !ok:
			return 0, io.EOF
		case starts(line):
			r.coming = line
			return 0, io.EOF
		}
		r.stand.lines = append(r.stand.lines, line)
		switch line {
		case markOrder + orderLost:
			return 0, io.EOF
		case markOrder + orderFull:
			r.stand.full = true
		case markOrder + orderLong:
			r.rest = strings.Repeat(" ", 1<<17) + "\n"
		default:
			r.rest = strings.TrimPrefix(line, markIn) + "\n"
		}
	}
	n := copy(b, r.rest)
	r.rest = r.rest[n:]
	return n, nil
}

// Write takes a line out.
func (r *linesIn) Write(b []byte) (int, error) {
	r.stand.lines = append(r.stand.lines, strings.TrimSuffix(string(b), "\n"))
	return len(b), nil
}

// replay sends what went into a kept session to today's program.
func replay(scopes map[string]scope.Scope, kept []string) []string {
	at := 0
	return (&stand{scopes: scopes}).run(func(string) (string, bool) {
		for at < len(kept) {
			at++
			if l := kept[at-1]; strings.HasPrefix(l, markIn) || strings.HasPrefix(l, markOrder) {
				return l, true
			}
		}
		return "", false
	})
}
