package journal

import (
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"time"

	"spotward/session/event"
	"spotward/session/words"
)

// JournalVersion is the version of the lines this program writes.
const JournalVersion = 2

// JournalEnding is the ending of a journal's file name.
const JournalEnding = ".jsonl"

// Journal is the file of one session, open for appending. One program holds it
// at a time.
type Journal struct {
	path string
	file *os.File
	lock *sessionLock
	now  func() time.Time
	size int64  // of the whole lines
	seq  int    // of the next line
	last []byte // the line before it, with its end; nil: there is none
	torn bool   // a failed write may have left more than the whole lines
}

// CreateJournal begins the journal of session id in dir. now gives the time of
// each line. who is told to another program that asks for the same session.
func Create(dir, id, who string, now func() time.Time) (*Journal, error) {
	if !ValidID(id) {
		return nil, fmt.Errorf("%s is no session's id: expected one like 20260131T203000Z-9f3a", words.Show(id))
	}
	path := filepath.Join(dir, id+JournalEnding)
	lock, err := LockSession(path, who)
	if err != nil {
		return nil, err
	}
	file, err := os.OpenFile(path, os.O_CREATE|os.O_EXCL|os.O_WRONLY|os.O_APPEND, 0o644)
	if err != nil {
		lock.Release()
		return nil, CannotKeep("the session", err)
	}
	if err := SyncDir(dir); err != nil {
		return nil, errors.Join(CannotKeep("the session", err), file.Close(), lock.Release())
	}
	return &Journal{path: path, file: file, lock: lock, now: now}, nil
}

// OpenJournal opens a journal to go on with it and returns what stands in it.
// A torn last line is dropped from the file; the report says so.
func OpenFile(path, who string, now func() time.Time) (*Journal, []event.Line, Report, error) {
	if err := PlainFile(path); err != nil {
		return nil, nil, Report{}, err
	}
	lock, err := LockSession(path, who)
	if err != nil {
		return nil, nil, Report{}, err
	}
	j, lines, report, err := openLocked(path, lock, now)
	if err != nil {
		lock.Release()
		return nil, nil, report, err
	}
	return j, lines, report, nil
}

func openLocked(path string, lock *sessionLock, now func() time.Time) (*Journal, []event.Line, Report, error) {
	lines, report, err := Read(path)
	if err != nil {
		return nil, nil, report, err
	}
	if report.Damaged > 0 {
		return nil, nil, report, fmt.Errorf("%s: %s: it cannot be continued", filepath.Base(path), report.damage())
	}
	if report.Newer > 0 {
		return nil, nil, report, fmt.Errorf("%s was written by a newer program (version %d): go on with it there, or get that program", filepath.Base(path), report.Newer)
	}
	file, err := os.OpenFile(path, os.O_WRONLY|os.O_APPEND, 0)
	if err != nil {
		return nil, nil, report, CannotKeep("the session", err)
	}
	j := &Journal{path: path, file: file, lock: lock, now: now, size: report.Size, seq: len(lines), torn: report.TornBytes > 0}
	if len(lines) > 0 {
		j.last = append(lines[len(lines)-1].Raw[:len(lines[len(lines)-1].Raw):len(lines[len(lines)-1].Raw)], '\n')
	}
	if err := j.mend(); err != nil {
		return nil, nil, report, errors.Join(CannotKeep("the session", err), file.Close())
	}
	return j, lines, report, nil
}

// Path returns where the journal is.
func (j *Journal) Path() string { return j.path }

// Entry is what a line holds beside its head: a kind, and an object.
type Entry struct {
	Kind    string
	Payload any
}

// Append keeps entries in the order given, a line each. When it returns nil they
// are on disk. On an error none of them is kept, and the next call tries afresh.
func (j *Journal) Append(entries ...Entry) error {
	var all []byte
	last := j.last
	for i, e := range entries {
		line, err := j.line(j.seq+i, e, last)
		if err != nil {
			return CannotKeep(e.Kind, err)
		}
		all = append(all, line...)
		last = line
	}
	if err := j.write(all); err != nil {
		return CannotKeep(entries[0].Kind, err)
	}
	j.seq += len(entries)
	j.last = last
	return nil
}

// write has whole lines on disk in one write, or nothing of them.
func (j *Journal) write(lines []byte) error {
	if err := j.mend(); err != nil {
		return err
	}
	if err := j.untouched(); err != nil {
		return err
	}
	j.torn = true
	n, err := j.file.Write(lines)
	if err == nil && n < len(lines) {
		err = io.ErrShortWrite
	}
	if err == nil {
		err = j.file.Sync()
	}
	if err != nil {
		// What is left is cut off now if it can be, else before the next line,
		// else by whoever opens the journal next.
		return errors.Join(err, j.mend())
	}
	j.torn = false
	j.size += int64(len(lines))
	return nil
}

// line returns an entry as a line of the journal, after the line before it.
func (j *Journal) line(seq int, e Entry, before []byte) ([]byte, error) {
	head, err := json.Marshal(LineHead{V: JournalVersion, Seq: seq, T: j.now().Round(0).UTC().Truncate(time.Millisecond), Kind: e.Kind})
	if err != nil {
		return nil, err
	}
	body, err := json.Marshal(e.Payload)
	if err != nil {
		return nil, err
	}
	if string(body) == "null" {
		body = []byte("{}")
	}
	var taken map[string]json.RawMessage
	if err := json.Unmarshal(body, &taken); err != nil {
		return nil, errors.New("an event is an object with named fields")
	}
	for _, name := range []string{"v", "seq", "t", "kind", "sum"} {
		if _, found := taken[name]; found {
			return nil, fmt.Errorf("an event has no field %q of its own", name)
		}
	}
	line := head[:len(head)-1]
	if len(taken) > 0 {
		line = append(append(line, ','), body[1:len(body)-1]...)
	}
	line = Summed(before, line)
	if len(line) > maxLineBytes {
		return nil, fmt.Errorf("longer than %d KB", maxLineBytes>>10)
	}
	return line, nil
}

// mend cuts off what a failed write may have left.
func (j *Journal) mend() error {
	if !j.torn {
		return nil
	}
	// By its path: a file opened for appending cannot be cut on Windows.
	if err := os.Truncate(j.path, j.size); err != nil {
		return err
	}
	if err := j.file.Sync(); err != nil {
		return err
	}
	j.torn = false
	return nil
}

// untouched checks that the file is still where it was, as long as it was: a
// deleted file can be written to without an error, and lost.
func (j *Journal) untouched() error {
	there, err := os.Stat(j.path)
	if err != nil {
		return err
	}
	here, err := j.file.Stat()
	if err != nil {
		return err
	}
	if !os.SameFile(there, here) || here.Size() != j.size {
		return fmt.Errorf("%s was changed by something else", j.path)
	}
	return nil
}

// Close closes the journal and lets others have it.
func (j *Journal) Close() error {
	return errors.Join(j.file.Close(), j.lock.Release())
}

// CannotKeep says in one line what could not be kept and why.
func CannotKeep(what string, err error) error {
	return &UnkeptError{What: what, Err: err}
}

// UnkeptError says that something could not be kept on disk.
type UnkeptError struct {
	What string
	Err  error
}

func (e *UnkeptError) Error() string {
	reason := e.Err.Error()
	var at *fs.PathError
	if errors.As(e.Err, &at) {
		reason = at.Path + ": " + at.Err.Error()
	}
	return words.OneLine(fmt.Sprintf("%s could not be kept (%s): free the disk or choose another --data, or go on without a record", e.What, reason))
}

func (e *UnkeptError) Unwrap() error { return e.Err }

// PlainFile reports an error for anything but a file of its own: what is
// linked from elsewhere, a folder, a pipe.
func PlainFile(path string) error {
	info, err := os.Lstat(path)
	if err != nil {
		return CannotRead(path, err)
	}
	if !info.Mode().IsRegular() {
		return fmt.Errorf("%s is not a plain file", words.Show(path))
	}
	return nil
}

func CannotRead(path string, err error) error {
	var at *fs.PathError
	if errors.As(err, &at) {
		err = at.Err
	}
	return fmt.Errorf("%s cannot be read: %w", words.OneLine(path), err)
}
