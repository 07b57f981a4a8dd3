package shelf

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"sync"

	"github.com/adrg/xdg"
	"github.com/gofrs/flock"

	"spotward/session/journal"
	"spotward/session/scope"
	"spotward/session/words"
)

// Shelf is a data directory: scopes, kits, journals, records and trainees.
// Nothing is written outside of it.
type Shelf struct {
	dir string

	// Progress is told, from any goroutine, how many of how many sessions have been
	// summed up, or entries of a pack taken. nil: nobody is.
	Progress func(done, of int)

	mu     sync.Mutex
	drafts map[string]*flock.Flock // those that this program works on, by their names
}

// The parts of a data directory.
const (
	scopesDir      = "scopes"
	retiredDir     = "scopes/retired"
	kitsDir        = "kits"
	retiredKitsDir = "kits/retired"
	journalsDir    = "journals"
	traineesDir    = "trainees"
)

// DefaultDir returns the data directory that is used where none is named.
func DefaultDir() string { return filepath.Join(xdg.DataHome, "spotward") }

// Open opens the data directory dir, and makes it if it is not there.
// One that cannot be written to can still be read: the error is then an
// *UnkeptError, and the shelf is good for reading.
func Open(dir string) (*Shelf, error) {
	abs, err := filepath.Abs(dir)
	if err != nil {
		return nil, journal.CannotRead(dir, err)
	}
	l := &Shelf{dir: abs}
	for _, part := range []string{scopesDir, kitsDir, journalsDir, traineesDir} {
		if err := os.MkdirAll(l.path(part), 0o755); err != nil {
			return l, journal.CannotKeep("anything", err)
		}
	}
	if err := l.writable(); err != nil {
		return l, err
	}
	l.sweep()
	return l, nil
}

// probeStart is how the name of the file begins by which writing is tried.
const probeStart = ".try-"

// writable tries whether a file can be made. Permissions alone do not tell.
func (l *Shelf) writable() error {
	probe, err := os.CreateTemp(l.path(journalsDir), probeStart+"*")
	if err != nil {
		return journal.CannotKeep("anything", err)
	}
	if err := errors.Join(probe.Close(), os.Remove(probe.Name())); err != nil {
		return journal.CannotKeep("anything", err)
	}
	return nil
}

// Dir returns the data directory.
func (l *Shelf) Dir() string { return l.dir }

func (l *Shelf) path(parts ...string) string {
	return filepath.Join(append([]string{l.dir}, parts...)...)
}

// TraineeDir returns the directory of a trainee's files, which may not be
// there yet.
func (l *Shelf) TraineeDir(name string) (string, error) {
	if err := scope.CheckName(name); err != nil {
		return "", fmt.Errorf("trainee %s: expected %w", words.Show(name), err)
	}
	return l.path(traineesDir, name), nil
}

// named is a file of the library and the name inside it.
type named[T any] struct {
	path  string
	name  string
	value T
}

// FileError is why a file of the library cannot be read. Its text names the file.
type FileError struct {
	Path string
	Err  error
}

func (e *FileError) Error() string { return e.Err.Error() }

func (e *FileError) Unwrap() error { return e.Err }

// of reports whether the file is the one that a scope or kit of that name would
// be kept in.
func (e *FileError) of(name string) bool {
	return scope.SameName(strings.TrimSuffix(filepath.Base(e.Path), tomlEnding), name)
}

const tomlEnding = ".toml"

// readAll reads the files of one part of the library, in the order of their
// names. What cannot be read is in the errors, a *FileError each.
func readAll[T any](dir string, decode func(data []byte, stem string) (T, string, error)) ([]named[T], []error) {
	entries, err := os.ReadDir(dir)
	if errors.Is(err, fs.ErrNotExist) {
		return nil, nil
	}
	if err != nil {
		return nil, []error{journal.CannotRead(dir, err)}
	}
	var found []named[T]
	var unread []error
	for _, e := range entries {
		stem, isTOML := strings.CutSuffix(e.Name(), tomlEnding)
		if !isTOML || strings.HasPrefix(stem, ".") || e.IsDir() {
			continue
		}
		path := filepath.Join(dir, e.Name())
		value, name, err := readFile(path, stem, decode)
		switch {
		case err != nil:
			unread = append(unread, &FileError{path, err})
		case slices.ContainsFunc(found, func(n named[T]) bool { return scope.SameName(n.name, name) }):
			unread = append(unread, &FileError{path, fmt.Errorf("%s: name = %s: expected a name that no other file there has", words.OneLine(path), words.Show(name))})
		default:
			found = append(found, named[T]{path, name, value})
		}
	}
	slices.SortFunc(found, func(a, b named[T]) int { return strings.Compare(strings.ToLower(a.name), strings.ToLower(b.name)) })
	return found, unread
}

func readFile[T any](path, stem string, decode func([]byte, string) (T, string, error)) (T, string, error) {
	var none T
	data, err := readSmall(path)
	if err != nil {
		return none, "", err
	}
	value, name, err := decode(data, stem)
	if err != nil {
		return none, "", fmt.Errorf("%s: %w", words.OneLine(path), err)
	}
	return value, name, nil
}

// readSmall reads a file that a scope or a kit can be in; it looks at nothing
// of one that is too large.
func readSmall(path string) ([]byte, error) {
	info, err := os.Stat(path)
	if err != nil {
		return nil, journal.CannotRead(path, err)
	}
	if !info.Mode().IsRegular() {
		return nil, fmt.Errorf("%s is not a plain file", words.OneLine(path))
	}
	if info.Size() > scope.MaxFileBytes {
		return nil, fmt.Errorf("%s is too long to describe a telescope: expected at most %d KB", words.OneLine(path), scope.MaxFileBytes>>10)
	}
	data, err := os.ReadFile(path)
	if err != nil {
		return nil, journal.CannotRead(path, err)
	}
	return data, nil
}
