package session

import (
	"slices"
	"sync/atomic"

	"spotward/session/event"
)

// Which of the states between the events are kept: all of the latest, and of the
// earlier ones a few. Those between are folded again when somebody goes back
// that far, so that a session of thousands of lines takes little more room than
// a usual one: a state holds two beliefs, 30 to 400 kB.
const (
	keptLatest = 64
	keptEach   = 256
	letGoEach  = 32
)

// node is one accepted event, and the state before it.
type node struct {
	event  event.Event
	prev   *node                 // the event before it
	n      int                   // how many there are before it
	before atomic.Pointer[State] // nil: left out, and found again by folding
}

// happened returns the history with ev added to it, and lets go of states that
// are long past. What was undone is redone from the latest state alone, so none
// of them keeps it.
func (s State) happened(ev event.Event) *node {
	s.redo, s.redoLeft = nil, nil
	n := &node{event: ev, prev: s.history}
	n.before.Store(&s)
	if s.history == nil {
		return n
	}
	n.n = s.history.n + 1
	if n.n%letGoEach != 0 {
		return n
	}
	for m := n.prev; m != nil && m.before.Load() != nil; m = m.prev {
		if m.n < n.n-keptLatest && m.n%keptEach != 0 {
			m.before.Store(nil)
		}
	}
	return n
}

// was returns the state before the event.
func (n *node) was() State {
	if s := n.before.Load(); s != nil {
		return *s
	}
	before := n.prev.was()
	s, err := Apply(before, n.prev.event)
	if err != nil {
		return before // cannot be: it was taken before, and Apply is pure
	}
	n.before.Store(&s)
	return s
}

// Past is an event in force, and the states before and after it.
type Past struct {
	Event         event.Event
	Before, After State
}

// Past returns the events in force with the states between them, oldest first, as
// they were: nothing of a usual session is folded again.
func (s State) Past() []Past {
	var nodes []*node
	for n := s.history; n != nil; n = n.prev {
		nodes = append(nodes, n)
	}
	slices.Reverse(nodes)
	out := make([]Past, len(nodes))
	for i, n := range nodes {
		out[i].Event = n.event
		if before := n.before.Load(); before != nil {
			out[i].Before = *before
		} else {
			out[i].Before, _ = Apply(out[i-1].Before, out[i-1].Event) // taken before, so no error
		}
		if i > 0 {
			out[i-1].After = out[i].Before
		}
	}
	if len(out) > 0 {
		out[len(out)-1].After = s
	}
	return out
}

// Events returns the accepted events in force, oldest first: what was undone
// is not among them.
func (s State) Events() []event.Event {
	var out []event.Event
	for n := s.history; n != nil; n = n.prev {
		out = append(out, n.event)
	}
	slices.Reverse(out)
	return out
}
