package shelf

import (
	"encoding/json"
	"fmt"
	"os"
	"slices"
	"strings"
	"sync/atomic"
	"time"

	"spotward/session"
	"spotward/session/event"
	"spotward/session/history"
	"spotward/session/journal"
	"spotward/session/scope"
	"spotward/session/words"
)

// Journal keeps a session's events.
type Journal struct{ *journal.Journal }

// Keep keeps events in the order given, as journal.Append does.
func (j *Journal) Keep(events ...event.Event) error {
	entries := make([]journal.Entry, len(events))
	for i, ev := range events {
		entries[i] = journal.Entry{Kind: string(ev.Kind), Payload: ev}
	}
	return j.Append(entries...)
}

// CreateJournal begins the journal of session id; see journal.Create.
func (l *Shelf) CreateJournal(id, who string, now func() time.Time) (*Journal, error) {
	j, err := journal.Create(l.path(journalsDir), id, who, now)
	if err != nil {
		return nil, err
	}
	return &Journal{j}, nil
}

// OpenJournal opens the journal of session id to go on with it; see
// journal.OpenFile.
func (l *Shelf) OpenJournal(id, who string, now func() time.Time) (*Journal, []event.Line, journal.Report, error) {
	path, err := l.journalPath(id)
	if err != nil {
		return nil, nil, journal.Report{}, err
	}
	j, lines, report, err := journal.OpenFile(path, who, now)
	if err != nil {
		return nil, nil, report, err
	}
	return &Journal{j}, lines, report, nil
}

// ReadJournal reads the journal of session id; see the function of that name.
func (l *Shelf) ReadJournal(id string) ([]event.Line, journal.Report, error) {
	path, err := l.journalPath(id)
	if err != nil {
		return nil, journal.Report{}, err
	}
	return journal.Read(path)
}

func (l *Shelf) journalPath(id string) (string, error) {
	if !journal.ValidID(id) {
		return "", fmt.Errorf("%s is no session's id: spotward records lists them", words.Show(id))
	}
	return l.path(journalsDir, id+journal.JournalEnding), nil
}

// journalIDs returns the ids of all journals, oldest first.
func (l *Shelf) journalIDs() ([]string, error) {
	entries, err := os.ReadDir(l.path(journalsDir))
	if err != nil {
		return nil, journal.CannotRead(l.path(journalsDir), err)
	}
	var ids []string
	for _, e := range entries {
		if id, ok := strings.CutSuffix(e.Name(), journal.JournalEnding); ok && journal.ValidID(id) {
			ids = append(ids, id)
		}
	}
	return ids, nil
}

// Unfinished returns the sessions on the scope of that name that can be taken
// up again, newest first; "" is any scope. A journal that cannot be read is a
// line in the errors.
func (l *Shelf) Unfinished(sc string) ([]history.Unfinished, []error) {
	_, open, errs := l.survey()
	open = slices.DeleteFunc(open, func(u history.Unfinished) bool { return sc != "" && !scope.SameName(u.Scope, sc) })
	slices.Reverse(open)
	return open, errs
}

// SessionError is why a session's journal cannot be summed up. Its text names the
// file.
type SessionError struct {
	ID  string
	Err error
}

func (e *SessionError) Error() string { return e.Err.Error() }

func (e *SessionError) Unwrap() error { return e.Err }

// summedUp is what became of a journal that was summed up.
type summedUp struct {
	record     *keptRecord
	unfinished *history.Unfinished
	err        error
}

// sumUpAll sums up the sessions of these ids, in their order. A fold takes a
// moment, and years of a large shelf are many.
func (l *Shelf) sumUpAll(ids []string) []summedUp {
	out := make([]summedUp, len(ids))
	own := l.dirID()
	var done atomic.Int64
	onAllProcessors(len(ids), func(i int) {
		defer func() { l.progress(int(done.Add(1)), len(ids)) }()
		var err error
		if out[i].record, out[i].unfinished, err = l.sumUp(ids[i], own); err != nil {
			out[i].err = &SessionError{ids[i], err}
		}
	})
	return out
}

func (l *Shelf) progress(done, of int) {
	if l.Progress != nil {
		l.Progress(done, of)
	}
}

// sumUp returns the record of session id, which is its journal's last line, or
// that it is not finished. Both are nil for a journal in which nothing stands
// yet. own is this directory's id: what was made in another is summed up here.
func (l *Shelf) sumUp(id, own string) (*keptRecord, *history.Unfinished, error) {
	name := id + journal.JournalEnding
	ends, err := journal.ReadEnds(l.path(journalsDir, name))
	if err != nil || ends.Lines == 0 {
		return nil, nil, err
	}
	begin, err := beginOf(id, ends.First)
	if err != nil {
		return nil, nil, fmt.Errorf("%s: %w", name, err)
	}
	if ends.Report.Damaged > 0 {
		return nil, nil, fmt.Errorf("%s: %s", name, ends.Report)
	}
	r, over, err := recordOf(id, begin, ends.First, ends.Last)
	if err != nil {
		return nil, nil, fmt.Errorf("%s: %w", name, err)
	}
	if over && begin.Dir != own {
		lines, _, err := l.ReadJournal(id)
		if err != nil {
			return nil, nil, err
		}
		r = summedUpAgain(r, begin, lines)
	}
	if !over {
		return nil, &history.Unfinished{
			ID: id, Scope: begin.Scope.Name, Who: begin.Who, World: begin.World, Way: begin.Way, Dir: begin.Dir, Count: begin.Count,
			Began: ends.First.T, Last: ends.Last.T,
		}, nil
	}
	line, err := json.Marshal(r)
	if err != nil {
		return nil, nil, fmt.Errorf("%s: %w", name, err)
	}
	return &keptRecord{r, line}, nil, nil
}

// beginOf reads how session id begins.
func beginOf(id string, first event.Line) (event.Event, error) {
	var begin event.Event
	if err := json.Unmarshal(first.Raw, &begin); err != nil {
		return begin, fmt.Errorf("line 1: %w", err)
	}
	if begin.ID != id || begin.Scope == nil {
		return begin, fmt.Errorf("line 1 is of session %s: expected the one of the file's name, and a scope", words.Show(begin.ID))
	}
	return begin, nil
}

// recordOf returns the record in a journal's last line. What the begin line says
// stands above it.
func recordOf(id string, begin event.Event, first, last event.Line) (session.Record, bool, error) {
	r, over, err := session.RecordIn(first, last)
	if err != nil || !over {
		return r, false, err
	}
	r.ID, r.Scope, r.Who, r.Practice = id, words.OneLine(begin.Scope.Name), words.OneLine(begin.Who), begin.World != nil
	r.Way, r.Dir, r.Count = begin.Way, words.OneLine(begin.Dir), begin.Count
	return r, true, nil
}
