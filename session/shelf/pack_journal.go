package shelf

import (
	"bytes"
	"errors"
	"fmt"
	"os"
	"slices"

	"spotward/session"
	"spotward/session/event"
	"spotward/session/journal"
)

// journal takes a journal: one that is new here as it is; of one that has gone
// on elsewhere the lines that it lacks here.
func (t *taker) journal(stem string, data []byte) error {
	if !journal.ValidID(stem) {
		return errors.New("the name is no session's id")
	}
	data, lines, begin, err := packedJournal(stem, data)
	if err != nil {
		return err
	}
	if _, _, err := recordOf(stem, begin, lines[0], lines[len(lines)-1]); err != nil {
		return err
	}
	path := t.l.path(journalsDir, stem+journal.JournalEnding)
	if _, err := os.Lstat(path); err != nil {
		if err := writeQuick(path, data); err != nil {
			return journal.CannotKeep("session "+stem, err)
		}
		t.taken.Journals++
		return t.brings(stem, begin, lines)
	}
	here, _, err := readWholeJournal(path)
	if err != nil {
		return fmt.Errorf("here it is damaged: %w", err)
	}
	mine, theirs := afterWho(here), afterWho(data)
	switch {
	case hasPrefix(mine, theirs):
		t.taken.Known++
		return nil
	case !hasPrefix(theirs, mine):
		return errors.New("the session went on differently here: the one here stays as it is")
	}
	if err := t.lengthen(path, here, theirs[len(mine):]); err != nil {
		return err
	}
	t.taken.Longer++
	return t.brings(stem, begin, lines)
}

// summedUpAgain returns what a session came to that was made in another data
// directory. Its own record, told, is not believed: one of the present way is
// folded and summed up here. One of an earlier way, or that cannot be folded, is
// returned as it is told, and marked.
func summedUpAgain(told session.Record, begin event.Event, lines []event.Line) session.Record {
	as := told
	as.Told = true
	if !session.Folds(begin.Way) || told.Outcome == session.OutcomeDropped {
		return as
	}
	events, err := session.Events(lines)
	if err != nil {
		return as
	}
	s, err := session.Fold(events)
	if err != nil || !s.Over {
		return as
	}
	r := s.Record()
	r.Began, r.Ended, r.Who = told.Began, told.Ended, told.Who
	return r
}

// brings notes the record of a journal that was brought, if there is one.
func (t *taker) brings(id string, begin event.Event, lines []event.Line) error {
	told, over, err := recordOf(id, begin, lines[0], lines[len(lines)-1])
	if err == nil && over {
		t.records = append(t.records, summedUpAgain(told, begin, lines))
	}
	return err
}

func hasPrefix(lines, first [][]byte) bool {
	return len(lines) >= len(first) && slices.EqualFunc(lines[:len(first)], first, bytes.Equal)
}

// packedJournal checks a journal as it stands in a pack and returns its whole
// lines and how it begins.
func packedJournal(id string, data []byte) ([]byte, []event.Line, event.Event, error) {
	var begin event.Event
	var lines []event.Line
	data, err := wholeJournal(data, id+journal.JournalEnding, func(l event.Line) { lines = append(lines, l) })
	if err == nil && len(lines) == 0 {
		err = errors.New("there is no line in it")
	}
	if err != nil {
		return nil, nil, begin, err
	}
	if begin, err = beginOf(id, lines[0]); err != nil {
		return nil, nil, begin, err
	}
	return data, lines, begin, nil
}

// afterWho returns a journal's lines, each up to its sum and without who came and
// what scope and kit are called, so that one in which a name was changed or taken
// out is the same as the one it was.
func afterWho(data []byte) [][]byte {
	var out [][]byte
	for line := range bytes.Lines(data) {
		open, ok := journal.Open(line)
		if !ok {
			open = bytes.TrimSuffix(line, []byte{'\n'})
		}
		if text := append(slices.Clip(open), '}'); saysWhoCame(text) {
			open = bytes.TrimSuffix(withoutAnyWho(text), []byte{'}'})
		}
		out = append(out, open)
	}
	return out
}

// withoutAnyWho takes out whoever came, and where, and what scope and kit are
// called: either may have been forgotten or renamed in one of two copies.
func withoutAnyWho(line []byte) []byte {
	line, _ = withTexts(line, func(member, said string) (string, bool) {
		return "", member == "who" || member == "where" || saysScope(member) || saysKit(member)
	})
	return line
}

// lengthen adds the lines that a session lacks here, given up to their sums.
func (t *taker) lengthen(path string, here []byte, more [][]byte) error {
	lock, err := journal.LockSession(path, "")
	if err != nil {
		return err
	}
	defer lock.Release()
	now, _, err := readWholeJournal(path)
	if err != nil {
		return err
	}
	if !bytes.Equal(now, here) {
		return errors.New("the session is going on here just now: take it later")
	}
	last := now[bytes.LastIndexByte(now[:max(0, len(now)-1)], '\n')+1:]
	for _, open := range more {
		last = journal.Summed(last, open)
		now = append(now, last...)
	}
	if err := writeWhole(path, now); err != nil {
		return journal.CannotKeep("session "+journal.IdOf(path), err)
	}
	return nil
}
