package shelf

import (
	"crypto/rand"
	"encoding/hex"
	"encoding/json"
	"errors"
	"io/fs"
	"os"

	"spotward/session/journal"
)

// directoryFile says which data directory this is, and how many sessions were
// begun in it.
const (
	directoryFile = "directory.json"
	directoryLock = "directory.lock"
	directoryMost = 4 << 10 // bytes
)

type directory struct {
	ID    string `json:"dir"`
	Count int    `json:"count"`
}

// NextCount counts a session that is begun here: it returns the directory's id
// and the session's number, from 1. Where the count was lost the directory is
// another from there on, with an id of its own.
func (l *Shelf) NextCount() (dir string, count int, err error) {
	err = l.locked(directoryLock, func() error {
		d, err := l.directory()
		if err != nil {
			return err
		}
		d.Count++
		dir, count = d.ID, d.Count
		data, err := json.Marshal(d)
		if err != nil {
			return err
		}
		// Not waited for until it is on the disk: a count that a power cut has taken
		// back is told from another by its time.
		return writeQuick(l.path(directoryFile), append(data, '\n'))
	})
	if err != nil {
		return "", 0, journal.CannotKeep("the session", err)
	}
	return dir, count, nil
}

// dirID returns the id of this data directory, "" where it has none yet.
func (l *Shelf) dirID() string {
	var d directory
	data, err := readPlain(l.path(directoryFile), directoryMost)
	if err != nil || json.Unmarshal(data, &d) != nil {
		return ""
	}
	return d.ID
}

// directory reads the file, or makes a new directory's.
func (l *Shelf) directory() (directory, error) {
	var d directory
	data, err := readPlain(l.path(directoryFile), directoryMost)
	if err != nil && !errors.Is(err, fs.ErrNotExist) {
		return d, err
	}
	if err == nil && json.Unmarshal(data, &d) == nil && len(d.ID) == 16 && d.Count > 0 {
		return d, nil
	}
	var id [8]byte
	if _, err := rand.Read(id[:]); err != nil {
		return d, err
	}
	return directory{ID: hex.EncodeToString(id[:])}, nil
}

// readPlain reads a file of the data directory's own: no link, no pipe, and no
// more than so many bytes.
func readPlain(path string, most int64) ([]byte, error) {
	info, err := os.Lstat(path)
	if errors.Is(err, fs.ErrNotExist) {
		return nil, err
	}
	if err := journal.PlainFile(path); err != nil {
		return nil, err
	}
	if info.Size() > most {
		return nil, errors.New("it is longer than any that this program writes")
	}
	return os.ReadFile(path)
}
