package shelf

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"os"

	"spotward/session/event"
	"spotward/session/journal"
	"spotward/session/words"
)

// journal takes a journal: one that is new here as it is; of one that has gone
// on elsewhere the lines that it lacks here.
func (t *taker) journal(stem string, data []byte) error {
	if !journal.ValidID(stem) {
		return errors.New("the name is no session's id")
	}
	data, begin, err := packedJournal(stem, data)
	if err != nil {
		return err
	}
	path := t.l.path(journalsDir, stem+journal.JournalEnding)
	if _, err := os.Lstat(path); err != nil {
		if err := writeQuick(path, data); err != nil {
			return journal.CannotKeep("session "+stem, err)
		}
		t.taken.Journals++
		t.brought[stem] = begin
		return nil
	}
	here, _, err := readWholeJournal(path)
	if err != nil {
		return fmt.Errorf("here it is damaged: %w", err)
	}
	mine, theirs := afterWho(here), afterWho(data)
	switch {
	case bytes.HasPrefix(mine, theirs):
		t.taken.Known++
		return nil
	case !bytes.HasPrefix(theirs, mine):
		return errors.New("the session went on otherwise here: the one here stays as it is")
	}
	if err := t.lengthen(path, here, theirs[len(mine):]); err != nil {
		return err
	}
	t.taken.Longer++
	t.brought[stem] = begin
	return nil
}

// packedJournal checks a journal as it stands in a pack and returns its whole
// lines and how it begins.
func packedJournal(id string, data []byte) ([]byte, event.Event, error) {
	var begin event.Event
	var wrong error
	lines := 0
	data, err := wholeJournal(data, id+journal.JournalEnding, func(l event.Line) {
		if lines == 0 {
			wrong = json.Unmarshal(l.Raw, &begin)
		}
		lines++
	})
	switch {
	case err != nil:
		return nil, begin, err
	case lines == 0:
		return nil, begin, errors.New("there is no line in it")
	case wrong != nil:
		return nil, begin, fmt.Errorf("line 1: %w", wrong)
	case begin.ID != id || begin.Scope == nil:
		return nil, begin, fmt.Errorf("line 1 is of session %s: expected the one of the file's name, and a scope", words.Show(begin.ID))
	}
	return data, begin, nil
}

// afterWho returns a journal without who came, so that one whose name was taken
// out is the same as the one it was.
func afterWho(journal []byte) []byte {
	out := make([]byte, 0, len(journal))
	for line := range bytes.Lines(journal) {
		var head struct {
			Who string `json:"who"`
		}
		if saysWhoCame(line) && json.Unmarshal(line, &head) == nil {
			if without, did := withoutWho(bytes.TrimSuffix(line, []byte{'\n'}), head.Who); did {
				line = append(without, '\n')
			}
		}
		out = append(out, line...)
	}
	return out
}

// lengthen adds the lines that a session lacks here.
func (t *taker) lengthen(path string, here, more []byte) error {
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
	if err := writeWhole(path, append(now, more...)); err != nil {
		return journal.CannotKeep("session "+journal.IdOf(path), err)
	}
	return nil
}
