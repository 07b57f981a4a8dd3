package desk

import (
	"spotward/session"
	"spotward/session/event"
	"spotward/session/journal"
)

// AsTold returns what stands in a journal as it was told, whatever questions it
// was asked: nothing is folded, and every frame has the state at the beginning.
// So a session of an earlier way can still be read.
func (d *Desk) AsTold(id string) ([]Frame, journal.Report, error) {
	lines, report, err := d.Library.ReadJournal(id)
	if err != nil || len(lines) == 0 {
		return nil, report, err
	}
	events, err := session.Events(lines)
	if err != nil {
		return nil, report, err
	}
	begun, err := session.Apply(session.State{}, events[0])
	if err != nil {
		return nil, report, err
	}
	var frames []Frame
	for i, ev := range events {
		switch ev.Kind {
		case event.KindBegin, event.KindHand, event.KindRecord:
			continue
		}
		frames = append(frames, Frame{T: lines[i].T, Event: ev, State: begun})
	}
	return frames, report, nil
}
