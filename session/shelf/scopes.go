package shelf

import (
	"bytes"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"strings"

	"spotward/session/journal"
	"spotward/session/scope"
	"spotward/session/words"
)

// OtherContentError says that a file has the name of a scope known here, and
// other content. The caller asks which is meant; SaveScope takes the new one
// in.
type OtherContentError struct {
	Path  string
	Known scope.Scope
	New   scope.Scope
}

func (e *OtherContentError) Error() string {
	return fmt.Sprintf("%s describes %s differently from the one known here: say which is meant, or give it another name", words.OneLine(e.Path), words.Show(e.New.Name))
}

// Scopes returns the scopes known here in the order of their names, and a line
// for each file that cannot be read.
func (l *Shelf) Scopes() ([]scope.Scope, []error) {
	files, unread := l.scopeFiles(scopesDir)
	return values(files), unread
}

// RetiredScopes returns the scopes that were retired.
func (l *Shelf) RetiredScopes() ([]scope.Scope, []error) {
	files, unread := l.scopeFiles(retiredDir)
	return values(files), unread
}

func (l *Shelf) scopeFiles(part string) ([]named[scope.Scope], []error) {
	return readAll(l.path(part), func(data []byte, _ string) (scope.Scope, string, error) {
		s, err := scope.DecodeScope(data)
		return s, s.Name, err
	})
}

func values[T any](files []named[T]) []T {
	out := make([]T, len(files))
	for i, f := range files {
		out[i] = f.value
	}
	return out
}

// Scope returns the scope that is meant by a name known here or a path. A path
// with a new name is copied in: if that fails the scope is good all the same,
// and the error an *UnkeptError. A path with a known name and other content is
// an *OtherContentError.
func (l *Shelf) Scope(nameOrPath string) (scope.Scope, error) {
	files, unread := l.scopeFiles(scopesDir)
	if known, ok := find(files, nameOrPath); ok {
		return known.value, nil
	}
	if err := l.whyUnknown(nameOrPath, unread); err != nil {
		return scope.Scope{}, err
	}
	data, err := readSmall(nameOrPath)
	if err != nil {
		return scope.Scope{}, err
	}
	s, err := scope.DecodeScope(data)
	if err != nil {
		return scope.Scope{}, fmt.Errorf("%s: %w", words.OneLine(nameOrPath), err)
	}
	known, ok := find(files, s.Name)
	if b := scope.Builtin(); !ok && scope.SameName(b.Name, s.Name) {
		if sameScope(b, s) {
			return b, nil
		}
		return scope.Scope{}, fmt.Errorf("%s: name = %s: that is the practice telescope's name, give this one another", words.OneLine(nameOrPath), words.Show(s.Name))
	}
	switch {
	case !ok && l.wasRetired(s.Name, nameOrPath):
		return scope.Scope{}, fmt.Errorf("%s: a scope called %s was retired, and its records would count for this one. Give it another name, or use scopes add --as-is", words.OneLine(nameOrPath), words.Show(s.Name))
	case !ok:
		return s, l.SaveScopeFile(s, data)
	case !sameScope(known.value, s):
		return s, &OtherContentError{Path: nameOrPath, Known: known.value, New: s}
	}
	return known.value, nil
}

// wasRetired reports whether a scope of that name was retired, and is not just
// brought back by naming its file.
func (l *Shelf) wasRetired(name, path string) bool {
	files, _ := l.scopeFiles(retiredDir)
	r, ok := find(files, name)
	if !ok {
		return false
	}
	own, err := os.Stat(r.path)
	other, err2 := os.Stat(path)
	return err != nil || err2 != nil || !os.SameFile(own, other)
}

// whyUnknown returns an error where nameOrPath is a name and not a file's
// path.
func (l *Shelf) whyUnknown(nameOrPath string, unread []error) error {
	if strings.ContainsAny(nameOrPath, `/\`) || strings.HasSuffix(strings.ToLower(nameOrPath), ".toml") {
		return nil
	}
	if _, err := os.Stat(nameOrPath); err == nil {
		return nil
	}
	for _, err := range unread {
		if bad := (*FileError)(nil); errors.As(err, &bad) && bad.of(nameOrPath) {
			return err
		}
	}
	if retired, _ := l.scopeFiles(retiredDir); len(retired) > 0 {
		if r, ok := find(retired, nameOrPath); ok {
			return fmt.Errorf("%s is retired: to have it back, name its file, %s", words.Show(nameOrPath), words.OneLine(r.path))
		}
	}
	return fmt.Errorf("no scope %s here: spotward scopes lists those known, a path to a file brings one in", words.Show(nameOrPath))
}

func find[T any](files []named[T], name string) (named[T], bool) {
	for _, f := range files {
		if scope.SameName(f.name, name) {
			return f, true
		}
	}
	return named[T]{}, false
}

func sameScope(a, b scope.Scope) bool { return bytes.Equal(scope.EncodeScope(a), scope.EncodeScope(b)) }

// SaveScope keeps a scope, in the place of the one with its name. In its file only
// the lines change that must.
func (l *Shelf) SaveScope(s scope.Scope) error { return l.SaveScopeFile(s, nil) }

// SaveScopeFile keeps a scope as SaveScope does, with the comments of the file that
// it was read from.
func (l *Shelf) SaveScopeFile(s scope.Scope, file []byte) error {
	if _, err := scope.DecodeScope(scope.EncodeScope(s)); err != nil {
		return err
	}
	files, _ := l.scopeFiles(scopesDir)
	path := l.path(scopesDir, s.Name+".toml")
	if known, ok := find(files, s.Name); ok {
		path = known.path
	} else if _, err := os.Lstat(path); err == nil {
		return fmt.Errorf("%s is in the way: give the scope another name, or move that file", words.OneLine(path))
	}
	if file == nil {
		file, _ = readSmall(path)
	}
	if err := writeWhole(path, scope.ReviseScope(file, s)); err != nil {
		return journal.CannotKeep("scope "+words.Show(s.Name), err)
	}
	return nil
}

// RetireScope puts a scope out of use. Its file is kept among the retired
// ones, its records stay.
func (l *Shelf) RetireScope(name string) error {
	files, unread := l.scopeFiles(scopesDir)
	known, ok := find(files, name)
	if !ok {
		if err := l.whyUnknown(name, unread); err != nil {
			return err
		}
		return fmt.Errorf("%s: expected the name of a scope known here, not a path", words.Show(name))
	}
	return l.retire(retiredDir, known.path, "scope", known.name)
}

// retire puts a file among those that are out of use.
func (l *Shelf) retire(part, path, what, name string) error {
	dir := l.path(part)
	if err := os.MkdirAll(dir, 0o755); err != nil {
		return journal.CannotKeep(what+" "+words.Show(name), err)
	}
	to, err := freePath(dir, name)
	if err == nil {
		err = os.Rename(path, to)
	}
	if err == nil {
		err = errors.Join(journal.SyncDir(dir), journal.SyncDir(filepath.Dir(path)))
	}
	if err != nil {
		return journal.CannotKeep("that "+what+" "+words.Show(name)+" is retired", err)
	}
	return nil
}

// freePath returns a path in dir for a file of that name that is not there
// yet: a scope can be retired more than once.
func freePath(dir, name string) (string, error) {
	for n := 1; ; n++ {
		path := filepath.Join(dir, name+".toml")
		if n > 1 {
			path = filepath.Join(dir, fmt.Sprintf("%s (%d).toml", name, n))
		}
		_, err := os.Lstat(path)
		if errors.Is(err, fs.ErrNotExist) {
			return path, nil
		}
		if err != nil {
			return "", err
		}
	}
}
