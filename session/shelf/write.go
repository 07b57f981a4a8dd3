package shelf

import (
	"crypto/rand"
	"encoding/hex"
	"errors"
	"io"
	"os"
	"path/filepath"
	"strings"

	"github.com/gofrs/flock"

	"spotward/session/journal"
)

// ReplaceFile puts what write writes in the place of the file at path. After an
// error, a full disk or a crash there is the old file or the new one, never a
// part of it; only one that is on the disk takes the old one's place.
func ReplaceFile(path string, write func(io.Writer) error) error {
	if err := renamedInto(path, write, (*os.File).Sync); err != nil {
		return err
	}
	return journal.SyncDir(filepath.Dir(path))
}

// writeWhole replaces the file at path by data, as ReplaceFile does.
func writeWhole(path string, data []byte) error { return ReplaceFile(path, writes(data)) }

// writeQuick writes a new file whole or not at all, and leaves it to the system
// when it is on the disk: after a power cut the pack is taken once more.
func writeQuick(path string, data []byte) error {
	return renamedInto(path, writes(data), func(*os.File) error { return nil })
}

func writes(data []byte) func(io.Writer) error {
	return func(w io.Writer) error {
		_, err := w.Write(data)
		return err
	}
}

// tempStart is how the name of a file begins that is being written.
const tempStart = ".new-"

// renamedInto writes a file beside path, settles it, and gives it that name. Who
// may read it is as the system's mask has it.
func renamedInto(path string, write func(io.Writer) error, settle func(*os.File) error) error {
	temp, lock, err := newTemp(filepath.Dir(path))
	if err != nil {
		return err
	}
	defer lock.Close()
	err = write(temp)
	if err == nil {
		err = settle(temp)
	}
	err = errors.Join(err, temp.Close())
	if err == nil {
		err = os.Rename(temp.Name(), path)
	}
	if err != nil {
		return errors.Join(err, os.Remove(temp.Name()))
	}
	return nil
}

// newTemp makes a file to write into, and locks it: one that nobody holds any
// more was left by a program that died.
func newTemp(dir string) (*os.File, *flock.Flock, error) {
	var random [6]byte
	if _, err := rand.Read(random[:]); err != nil {
		return nil, nil, err
	}
	path := filepath.Join(dir, tempStart+hex.EncodeToString(random[:]))
	f, err := os.OpenFile(path, os.O_CREATE|os.O_EXCL|os.O_RDWR, 0o666)
	if err != nil {
		return nil, nil, err
	}
	lock := flock.New(path)
	if _, err := lock.TryLock(); err != nil {
		return nil, nil, errors.Join(err, f.Close(), os.Remove(path))
	}
	return f, lock, nil
}

// sweep removes what programs that died have left half written.
func (l *Shelf) sweep() {
	parts := []string{"", scopesDir, retiredDir, kitsDir, retiredKitsDir, journalsDir, draftsDir}
	sessions, _ := os.ReadDir(l.path(photosDir))
	for _, s := range sessions {
		parts = append(parts, filepath.Join(photosDir, s.Name()))
	}
	for _, part := range parts {
		for _, start := range []string{tempStart, probeStart} {
			paths, _ := filepath.Glob(filepath.Join(globbed(l.path(part)), start+"*"))
			for _, path := range paths {
				if journal.PlainFile(path) != nil {
					continue
				}
				lock := flock.New(path, flock.SetFlag(os.O_RDWR))
				if got, err := lock.TryLock(); err == nil && got {
					_ = os.Remove(path)
				}
				_ = lock.Close()
			}
		}
	}
}

// globbed returns a path as a pattern that matches it alone.
func globbed(path string) string {
	return strings.NewReplacer("*", "[*]", "?", "[?]", "[", "[[]").Replace(path)
}
