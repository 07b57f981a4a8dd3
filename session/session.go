// Package session is one alignment from start to finish: its stages, what is asked
// in them, what the answers do, and the record that comes of it.
//
// A face sends events and draws states; it decides nothing:
//
//	typed line → event → journal on disk → Apply → state with advice → face
//
// Apply is pure. How the work on the mirrors stands is in package mirrors; a typed
// line is read in package answer, above. Nothing here looks at a clock, a file or
// a terminal.
package session

import (
	"encoding/json"
	"fmt"

	"spotward/session/event"
)

// Keeper keeps accepted events. A Journal is one.
type Keeper interface {
	// Keep has the events on disk when it returns nil, and none of them when it
	// does not.
	Keep(events ...event.Event) error
}

// Session is an alignment that is being made: the state and where its events
// are kept.
type Session struct {
	state State
	keep  Keeper // nil: without a record
}

// Start begins a session. ev is its begin event; keep may be nil, to go on
// without a record.
func Start(ev event.Event, keep Keeper) (*Session, error) {
	ev.Kind, ev.Way = event.KindBegin, Way
	s := &Session{keep: keep}
	return s, s.Do(ev)
}

// Fold returns the state that a journal's events lead to. Events that cannot
// be taken are an error: a journal holds accepted events only.
func Fold(events []event.Event) (State, error) { return foldEach(events, nil) }

func foldEach(events []event.Event, each func(Past)) (State, error) {
	var s State
	if len(events) > 0 && !Folds(events[0].Way) {
		return s, &WayError{events[0].Way}
	}
	for i, ev := range events {
		if ev.Stage != "" && !s.asks(ev) {
			return s, fmt.Errorf("event %d (%s): it answers %s, %s, and another question stands there", i, ev.Kind, ev.Stage, ev.Step)
		}
		next, err := Apply(s, ev)
		if err != nil {
			return s, fmt.Errorf("event %d (%s): %w", i, ev.Kind, err)
		}
		if each != nil {
			each(Past{ev, s, next})
		}
		s = next
	}
	return s, nil
}

// TakeUp goes on with a session from its journal's events. Each of them is handed
// to each, unless that is nil.
func TakeUp(events []event.Event, keep Keeper, each func(Past)) (*Session, error) {
	state, err := foldEach(events, each)
	if err != nil {
		return nil, err
	}
	if state.Over {
		return nil, ErrOver
	}
	s := &Session{state: state, keep: keep}
	return s, s.Do(event.Event{Kind: event.KindResume})
}

// State returns where the session stands.
func (s *Session) State() State { return s.state }

// WithoutRecord goes on without keeping what happens, after a journal that can
// no longer be written.
func (s *Session) WithoutRecord() { s.keep = nil }

// Kept reports whether events are kept on disk.
func (s *Session) Kept() bool { return s.keep != nil }

// Do takes events, one after another: they are checked, kept, and only then in
// force, all of them or none. What follows to be told is told, kept and in
// force as well. On an error nothing has changed.
func (s *Session) Do(events ...event.Event) error {
	try := s.state
	var all []event.Event
	take := func(ev event.Event) error {
		ev = try.named(ev)
		next, err := Apply(try, ev)
		if err != nil {
			return err
		}
		try, all = next, append(all, ev)
		return nil
	}
	for _, ev := range events {
		for _, e := range spelledOut(try, ev) {
			if err := take(e); err != nil {
				return err
			}
		}
	}
	if ev, due := try.stopDue(all); due {
		if err := take(ev); err != nil {
			return err
		}
	}
	// An advice of no move only ends a search; what is due after it is told too.
	for told, due := try.Advise(); due; told, due = try.Advise() {
		if err := take(event.Event{Kind: event.KindAdvised, Told: &told}); err != nil {
			return err
		}
	}
	if s.keep != nil {
		if try.Over {
			record, err := json.Marshal(try.Record())
			if err != nil {
				return &KeepError{err}
			}
			all = append(all, event.Event{Kind: event.KindRecord, Record: record})
		}
		if err := s.keep.Keep(all...); err != nil {
			return &KeepError{err}
		}
	}
	s.state = try
	return nil
}

// spelledOut puts the turns that an answer implies before it as an event of
// their own, so that taking the answer back does not take back what a hand
// did.
func spelledOut(s State, ev event.Event) []event.Event {
	told := s.Due
	if told == nil || ev.Kind != event.KindReading && ev.Kind != event.KindConfirm {
		return []event.Event{ev}
	}
	return []event.Event{{Kind: event.KindTurned, Turned: told.Turns(), Watched: ev.Cued || ev.Watched, Snug: told.Snug, Implied: true}, ev}
}

// KeepError says that what was to be taken could not be kept. The session
// stands as it was before; the same again is tried again.
type KeepError struct{ Err error }

func (e *KeepError) Error() string { return e.Err.Error() + " (say: go on)" }

func (e *KeepError) Unwrap() error { return e.Err }
