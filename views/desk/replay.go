package desk

import (
	"fmt"
	"time"

	"spotward/optics"
	"spotward/session"
	"spotward/session/event"
	"spotward/session/journal"
)

// Frame is one event of a session that is looked at again: what happened, and
// where the session stood after it.
type Frame struct {
	T     time.Time
	Event event.Event
	State session.State
	See   string // what was then to be seen on the practice telescope, in words
	Felt  string // and what the hand felt in it
}

// Replay returns a session's frames from its journal, oldest first. The advice
// in them is what was told then, not what would be told now. A journal that
// ends too early gives what stands in it, and the report says so.
func (d *Desk) Replay(id string) ([]Frame, journal.Report, error) {
	lines, report, err := d.Library.ReadJournal(id)
	if err != nil {
		return nil, report, err
	}
	frames, err := FramesOf(lines, d.Program)
	return frames, report, err
}

// FramesOf returns the frames of a journal's lines. What was to be seen and felt
// on a practice telescope is told only by the program that had made it:
// another's may differ in what nobody wrote down.
func FramesOf(lines []event.Line, program string) ([]Frame, error) {
	if n := len(lines); n > 0 && lines[n-1].Kind == string(event.KindRecord) {
		lines = lines[:n-1] // which nobody did
	}
	events, err := session.Events(lines)
	if err != nil || len(events) == 0 {
		return nil, err
	}
	if !session.Folds(events[0].Way) {
		return nil, &session.WayError{Way: events[0].Way}
	}
	past := make([]session.Past, len(events))
	var s session.State
	for i, ev := range events {
		next, err := session.Apply(s, ev)
		if err != nil {
			return nil, fmt.Errorf("line %d of the journal (%s): %w", lines[i].Seq+1, ev.Kind, err)
		}
		past[i] = session.Past{Event: ev, Before: s, After: next}
		s = next
	}
	frames := framesOf(past)
	for i := range frames {
		frames[i].T = lines[i].T
		if events[0].Program != program {
			frames[i].See, frames[i].Felt = "", ""
		}
	}
	return frames, nil
}

// framesOf returns the frames of what has happened.
func framesOf(past []session.Past) []Frame {
	frames := make([]Frame, len(past))
	w := Work{}
	for i, p := range past {
		if i == 0 {
			// A telescope that can no longer be made is missed only by that.
			w.Bench, _ = benchFor(p.After)
		} else if w.Bench != nil {
			w.Bench.Happened(p.Before, p.After, p.Event)
		}
		frames[i] = Frame{Event: p.Event, State: p.After}
		if w.Bench != nil {
			frames[i].Felt = w.Bench.TakeFelt()
		}
		if w.Bench != nil && !p.After.Over {
			frames[i].See = w.Bench.See(p.After)
		}
	}
	return frames
}

// Step is what belongs together: what the person did, and what was told then.
type Step struct {
	Frames []Frame // one at least
	Stage  session.StageID
}

// Last returns where things stood after the step.
func (s Step) Last() Frame { return s.Frames[len(s.Frames)-1] }

// Steps puts what the hands truly did, and what was implied, with the answer
// that it belongs to, and what was told after it. The begin line is no step.
func Steps(frames []Frame) []Step {
	var out []Step
	var open []Frame
	for i, f := range frames[min(1, len(frames)):] {
		stage := frames[i].State.Ask().Stage.ID
		switch {
		case f.Event.Kind == event.KindAdvised && len(out) > 0 && len(open) == 0:
			last := &out[len(out)-1]
			last.Frames = append(last.Frames, f)
			continue
		case f.Event.Kind == event.KindHand || f.Event.Implied:
			open = append(open, f)
			continue
		}
		out = append(out, Step{append(open, f), stage})
		open = nil
	}
	if open != nil {
		out = append(out, Step{open, frames[len(frames)-1].State.Ask().Stage.ID})
	}
	return out
}

// Look is one look at a spot, as far as it is in force: what was turned since
// the one before it, and where the session stood after it.
type Look struct {
	N      int
	Turned []optics.Turn
	Event  event.Event
	State  session.State
}

// Looks returns the looks that count at the end of the frames, none that was
// taken back, and what was turned after the last of them.
func Looks(frames []Frame) (looks []Look, turned []optics.Turn) {
	if len(frames) == 0 {
		return nil, nil
	}
	for _, p := range frames[len(frames)-1].State.Past() {
		switch p.Event.Kind {
		case event.KindTurned:
			turned = append(turned, p.Event.Turned...)
		case event.KindReading:
			if p.After.Looks == p.Before.Looks {
				continue // where red shows is no look at a spot
			}
			looks = append(looks, Look{N: len(looks) + 1, Turned: turned, Event: p.Event, State: p.After})
			turned = nil
		}
	}
	return looks, turned
}
