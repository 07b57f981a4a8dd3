package journal

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"strings"

	"github.com/gofrs/flock"

	"spotward/session/words"
)

// Holder is the program that has a session.
type Holder struct {
	PID  int    `json:"pid"`
	Host string `json:"host"`
	Who  string `json:"who,omitempty"`
}

// HeldError says that another program has the session.
type HeldError struct {
	ID     string
	Holder Holder // zero if it does not say
}

func (e *HeldError) Error() string {
	by := "another program"
	if e.Holder.PID != 0 {
		by = fmt.Sprintf("process %d on %s", e.Holder.PID, e.Holder.Host)
	}
	if e.Holder.Who != "" {
		by += " (" + e.Holder.Who + ")"
	}
	return words.OneLine(fmt.Sprintf("session %s is open in %s: go on there, or close it there first", e.ID, by))
}

// sessionLock keeps other programs from a session. Its file stays when the
// session ends: were it deleted, two could each hold one of that name.
type sessionLock struct{ file *flock.Flock }

// LockSession takes the lock of the journal at path, and notes who has it.
func LockSession(path, who string) (*sessionLock, error) {
	lockPath := LockPathOf(path)
	if info, err := os.Lstat(lockPath); err == nil && !info.Mode().IsRegular() {
		return nil, fmt.Errorf("%s is not a plain file", words.Show(lockPath))
	}
	l := flock.New(lockPath, flock.SetPermissions(0o666))
	got, err := l.TryLock()
	if err != nil {
		return nil, CannotKeep("the session", err)
	}
	if !got {
		return nil, &HeldError{ID: IdOf(path), Holder: ReadHolder(lockPath)}
	}
	if err := writeHolder(lockPath, who); err != nil {
		return nil, errors.Join(CannotKeep("the session", err), l.Close())
	}
	return &sessionLock{l}, nil
}

func LockPathOf(path string) string { return strings.TrimSuffix(path, JournalEnding) + ".lock" }

func (l *sessionLock) Release() error { return l.file.Close() }

// holderAt is where the note of the holder begins: the byte before it is the
// one that is locked on Windows, where nobody else can read it.
const holderAt = 1

const maxHolderBytes = 4 << 10

func writeHolder(lockPath, who string) error {
	host, err := os.Hostname()
	if err != nil {
		host = "this machine"
	}
	note, err := json.Marshal(Holder{PID: os.Getpid(), Host: host, Who: words.Cut(who, words.NameRunes)})
	if err != nil {
		return err
	}
	f, err := os.OpenFile(lockPath, os.O_WRONLY, 0)
	if err != nil {
		return err
	}
	_, err = f.WriteAt(append(note, '\n'), holderAt)
	return errors.Join(err, f.Close())
}

// EraseHolder takes out the note and what older, longer ones have left behind
// it.
func EraseHolder(lockPath string) error { return os.Truncate(lockPath, holderAt) }

// ReadHolder returns who has the lock, as far as the file says.
func ReadHolder(lockPath string) Holder {
	var h Holder
	f, err := os.Open(filepath.Clean(lockPath))
	if err != nil {
		return h
	}
	defer f.Close()
	note, err := io.ReadAll(io.NewSectionReader(f, holderAt, maxHolderBytes))
	if err != nil {
		return h
	}
	note, _, _ = bytes.Cut(note, []byte{'\n'})
	if json.Unmarshal(note, &h) != nil {
		return Holder{}
	}
	return h
}
