package shelf

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"io/fs"
	"strings"

	"spotward/session/history"
	"spotward/session/journal"
	"spotward/session/scope"
	"spotward/session/words"
)

// The log of work is a file that lines are only added to.
const (
	workFile     = "work.jsonl"
	workLock     = "work.lock"
	maxWorkBytes = 16 << 20 // a hundred lines a week for thirty years
)

// AddWork adds a line to the log of work.
func (l *Shelf) AddWork(j history.Job) error {
	if err := checkJob(j); err != nil {
		return err
	}
	err := l.locked(workLock, func() error { return appendLine(l.path(workFile), "the work", j) })
	if unkept := (*journal.UnkeptError)(nil); err != nil && !errors.As(err, &unkept) {
		return journal.CannotKeep("the work", err)
	}
	return err
}

// Work returns the log of work as it was written. A line that cannot be read, such
// as one torn off by a power cut, is left out.
func (l *Shelf) Work() ([]history.Job, error) {
	data, err := l.workData()
	if err != nil {
		return nil, err
	}
	var all []history.Job
	for line := range bytes.Lines(data) {
		if j, ok := jobIn(line); ok {
			all = append(all, j)
		}
	}
	return all, nil
}

func (l *Shelf) workData() ([]byte, error) {
	data, err := readPlain(l.path(workFile), maxWorkBytes)
	if errors.Is(err, fs.ErrNotExist) {
		return nil, nil
	}
	if err != nil {
		return nil, journal.CannotRead(l.path(workFile), err)
	}
	return data, nil
}

func jobIn(line []byte) (history.Job, bool) {
	var j history.Job
	ok := json.Unmarshal(line, &j) == nil && j.V > 0 && checkJob(j) == nil
	return j, ok
}

// mostJobRunes is how long what was done may be said.
const mostJobRunes = 500

func checkJob(j history.Job) error {
	switch {
	case j.Scope == "" && j.Kit == "" && j.Session == "":
		return errors.New("work is of a scope, a kit or a session: none is named")
	case strings.TrimSpace(j.What) == "":
		return errors.New("what was done is missing")
	case len([]rune(j.What)) > mostJobRunes:
		return fmt.Errorf("what was done is %d characters long: expected at most %d", len([]rune(j.What)), mostJobRunes)
	}
	for _, name := range []string{j.Scope, j.Kit} {
		if err := scope.CheckName(name); name != "" && err != nil {
			return fmt.Errorf("name = %s: expected %w", words.Show(name), err)
		}
	}
	return nil
}

// work packs the log.
func (p *packer) work() error {
	data, err := p.l.workData()
	if err != nil {
		p.packed.Unread = append(p.packed.Unread, err)
		return nil
	}
	for line := range bytes.Lines(data) {
		if _, ok := jobIn(line); ok {
			p.packed.Work++
		}
	}
	if p.packed.Work == 0 {
		return nil
	}
	return p.put(workFile, data)
}

// work takes the lines of a log that are not here yet. A line is the same where
// only the name is missing in one of the two: it was forgotten there.
func (t *taker) work(data []byte) error {
	here, err := t.l.workData()
	if err != nil {
		return err
	}
	key := func(line []byte) string {
		line, _ = withTexts(line, func(member, _ string) (string, bool) { return "", member == "who" })
		return string(bytes.TrimSpace(line))
	}
	known := map[string]bool{}
	for line := range bytes.Lines(here) {
		known[key(line)] = true
	}
	for line := range bytes.Lines(data) {
		j, ok := jobIn(line)
		if !ok || known[key(line)] {
			continue
		}
		if err := t.l.AddWork(j); err != nil {
			return err
		}
		t.taken.Work++
	}
	return nil
}

// nameInWork names a person anew in the log of work.
func (l *Shelf) nameInWork(p naming) error {
	return l.changeWork(func(line []byte) ([]byte, bool) { return p.inLine(line) })
}

// changeWork puts other lines in the place of those that change changes: names
// alone, nothing that was done.
func (l *Shelf) changeWork(change func(line []byte) ([]byte, bool)) error {
	if data, err := l.workData(); err != nil || len(data) == 0 {
		return err
	}
	return l.locked(workLock, func() error {
		data, err := l.workData()
		if err != nil {
			return err
		}
		var all bytes.Buffer
		changed := false
		for line := range bytes.Lines(data) {
			if now, did := change(bytes.TrimSpace(line)); did {
				line, changed = append(now, '\n'), true
			}
			all.Write(line)
		}
		if !changed {
			return nil
		}
		return writeWhole(l.path(workFile), all.Bytes())
	})
}
