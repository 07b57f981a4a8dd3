package shelf

import (
	"errors"
	"io"
	"os"
	"path/filepath"

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

// renamedInto writes a file beside path, settles it, and gives it that name.
func renamedInto(path string, write func(io.Writer) error, settle func(*os.File) error) error {
	temp, err := os.CreateTemp(filepath.Dir(path), ".new-*")
	if err != nil {
		return err
	}
	err = write(temp)
	if err == nil {
		err = temp.Chmod(0o644)
	}
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
