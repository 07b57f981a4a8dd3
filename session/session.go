// Package session is one alignment from start to finish: its stages, what can
// happen in them, the advice for where it stands, and the files it is kept in.
//
// A face sends events and draws states; it decides nothing:
//
//	typed line → event → journal on disk → Apply → state with advice → face
//
// Apply is pure. Only the journal and the library touch files; nothing here
// looks at a clock or a terminal.
package session

import (
	"fmt"

	"spotward/optics"
)

// Keeper keeps accepted events. A Journal is one.
type Keeper interface {
	// Append has the event on disk when it returns nil.
	Append(kind string, payload any) error
}

// Session is an alignment that is being made: the state and where its events
// are kept.
type Session struct {
	state State
	keep  Keeper // nil: without a record
}

// Start begins a session. ev is its begin event; keep may be nil, to go on
// without a record.
func Start(ev Event, keep Keeper) (*Session, error) {
	ev.Kind = KindBegin
	s := &Session{keep: keep}
	return s, s.Do(ev)
}

// Fold returns the state that a journal's events lead to. Events that cannot
// be taken are an error: a journal holds accepted events only.
func Fold(events []Event) (State, error) {
	var s State
	for i, ev := range events {
		next, err := Apply(s, ev)
		if err != nil {
			return s, fmt.Errorf("event %d (%s): %w", i, ev.Kind, err)
		}
		s = next
	}
	return s, nil
}

// TakeUp goes on with a session from its journal's events.
func TakeUp(events []Event, keep Keeper) (*Session, error) {
	state, err := Fold(events)
	if err != nil {
		return nil, err
	}
	if state.Over {
		return nil, ErrOver
	}
	s := &Session{state: state, keep: keep}
	return s, s.Do(Event{Kind: KindResume})
}

// State returns where the session stands.
func (s *Session) State() State { return s.state }

// WithoutRecord goes on without keeping what happens, after a journal that can
// no longer be written.
func (s *Session) WithoutRecord() { s.keep = nil }

// Kept reports whether events are kept on disk.
func (s *Session) Kept() bool { return s.keep != nil }

// Do takes an event: it is checked, kept, and only then in force. On an error
// nothing has changed. What follows to be told is told, kept and in force as
// well.
func (s *Session) Do(ev Event) error {
	events := s.spelledOut(ev)
	try := s.state // all of them or none
	for _, e := range events {
		next, err := Apply(try, e)
		if err != nil {
			return err
		}
		try = next
	}
	for _, e := range events {
		if err := s.take(e); err != nil {
			return err
		}
	}
	if told, due := s.state.Advise(); due {
		return s.take(Event{Kind: KindAdvised, Told: &told})
	}
	return nil
}

func (s *Session) take(ev Event) error {
	next, err := Apply(s.state, ev)
	if err != nil {
		return err
	}
	if s.keep != nil {
		if err := s.keep.Append(string(ev.Kind), ev); err != nil {
			return &KeepError{err}
		}
	}
	s.state = next
	return nil
}

// spelledOut puts the turns that an answer implies before it as an event of
// their own, so that taking the answer back does not take back what a hand
// did.
func (s *Session) spelledOut(ev Event) []Event {
	told := s.state.told
	if told == nil || ev.Kind != KindReading && ev.Kind != KindConfirm {
		return []Event{ev}
	}
	turns := make([]Turn, len(told.Moves))
	for i, m := range told.Moves {
		turns[i] = m.Turn
	}
	return []Event{{Kind: KindTurned, Turned: turns, Watched: ev.Cued, Implied: true}, ev}
}

// KeepError says that an event could not be kept. The session stands as it was
// before the event.
type KeepError struct{ Err error }

func (e *KeepError) Error() string { return e.Err.Error() }
func (e *KeepError) Unwrap() error { return e.Err }

// Learnt returns what this session has learnt of mirror m's screws, for the
// next one on the same scope.
func (s State) Learnt(m optics.Mirror) *Taught {
	l := s.Tracker(m).Learnt()
	return &l
}
