package shelf

import (
	"bytes"
	"encoding/json"
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
	r, err := summedUpAgain(stem, lines, begin)
	if err != nil {
		return err
	}
	path := t.l.path(journalsDir, stem+journal.JournalEnding)
	if _, err := os.Lstat(path); err != nil {
		if err := writeQuick(path, data); err != nil {
			return journal.CannotKeep("session "+stem, err)
		}
		t.taken.Journals++
		t.brings(r)
		return nil
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
		return errors.New("the session went on otherwise here: the one here stays as it is")
	}
	if err := t.lengthen(path, here, theirs[len(mine):]); err != nil {
		return err
	}
	t.taken.Longer++
	t.brings(r)
	return nil
}

// summedUpAgain checks what a journal of a pack says that it came to. One of the
// present way is folded, and must come to the same; one of an earlier way cannot
// be, and its record is returned, marked as told by another. It is nil where
// nothing is to be noted.
func summedUpAgain(id string, lines []event.Line, begin event.Event) (*session.Record, error) {
	told, over, err := recordOf(id, begin, lines[0], lines[len(lines)-1])
	if err != nil || !over {
		return nil, err
	}
	if begin.Way != session.Way || told.Outcome == session.OutcomeDropped {
		told.Told = true
		return &told, nil
	}
	events, err := session.Events(lines)
	if err != nil {
		return nil, err
	}
	s, err := session.Fold(events)
	if err != nil {
		return nil, err
	}
	own := s.Record()
	own.Began, own.Ended, own.Who = told.Began, told.Ended, told.Who
	mine, err := json.Marshal(own)
	if err != nil {
		return nil, err
	}
	theirs, err := json.Marshal(told)
	if err != nil {
		return nil, err
	}
	if !s.Over || !bytes.Equal(mine, theirs) {
		return nil, errors.New("its record says otherwise than what was done in it")
	}
	return nil, nil
}

// brings notes a record that is only told.
func (t *taker) brings(r *session.Record) {
	if r != nil {
		t.told = append(t.told, *r)
	}
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

// afterWho returns a journal's lines, each up to its sum and without who came, so
// that one whose name was taken out is the same as the one it was.
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

// withoutAnyWho takes out whoever came.
func withoutAnyWho(line []byte) []byte {
	var said struct {
		Who    string `json:"who"`
		Record struct {
			Who string `json:"who"`
		} `json:"record"`
	}
	if json.Unmarshal(line, &said) != nil {
		return line
	}
	for _, who := range []string{said.Who, said.Record.Who} {
		line, _ = withoutWho(line, who)
	}
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
