package desk

import (
	"fmt"
	"time"

	"spotward/session"
)

// Frame is one step of a session that is looked at again: what happened, and
// where the session stood after it.
type Frame struct {
	T     time.Time
	Event session.Event
	State session.State
	See   string // what was then to be seen on the practice telescope, in words
	Felt  string // and felt
}

// Replay returns a session's steps from its journal, oldest first. The advice
// in them is what was told then, not what would be told now. A journal that
// ends too early gives what stands in it, and the report says so.
func (d *Desk) Replay(id string) ([]Frame, session.Report, error) {
	lines, report, err := d.Library.ReadJournal(id)
	if err != nil {
		return nil, report, err
	}
	events, err := session.Events(lines)
	if err != nil {
		return nil, report, err
	}
	frames, err := framesOf(lines, events)
	return frames, report, err
}

func framesOf(lines []session.Line, events []session.Event) ([]Frame, error) {
	frames := make([]Frame, 0, len(events))
	w := Work{}
	var s session.State
	for i, ev := range events {
		next, err := session.Apply(s, ev)
		if err != nil {
			return nil, fmt.Errorf("line %d of the journal (%s): %w", lines[i].Seq+1, ev.Kind, err)
		}
		if i == 0 {
			if w.Bench, err = benchFor(next); err != nil {
				return nil, err
			}
		} else if w.Bench != nil {
			w.Bench.Happened(s, next, ev)
		}
		s = next
		f := Frame{T: lines[i].T, Event: ev, State: s, Felt: w.Felt()}
		if w.Bench != nil && !s.Over {
			f.See = w.Bench.See(s)
		}
		frames = append(frames, f)
	}
	return frames, nil
}
