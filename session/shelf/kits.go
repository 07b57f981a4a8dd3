package shelf

import (
	"fmt"
	"os"

	"spotward/session/journal"
	"spotward/session/scope"
	"spotward/session/words"
)

// Kits returns the kits known here in the order of their names, and a line for
// each file that cannot be read.
func (l *Shelf) Kits() ([]scope.Kit, []error) {
	files, unread := l.kitFiles()
	return values(files), unread
}

func (l *Shelf) kitFiles() ([]named[scope.Kit], []error) { return l.kitFilesIn(kitsDir) }

func (l *Shelf) kitFilesIn(part string) ([]named[scope.Kit], []error) {
	return readAll(l.path(part), func(data []byte, stem string) (scope.Kit, string, error) {
		k, err := scope.DecodeKit(data, stem)
		return k, k.Name, err
	})
}

// RetiredKits returns the kits that were retired.
func (l *Shelf) RetiredKits() ([]scope.Kit, []error) {
	files, unread := l.kitFilesIn(retiredKitsDir)
	return values(files), unread
}

// RetireKit puts a kit out of use. Its file is kept among the retired ones, and
// what was read with it stays on record.
func (l *Shelf) RetireKit(name string) error {
	if _, err := l.Kit(name); err != nil {
		return err
	}
	files, _ := l.kitFiles()
	k, _ := find(files, name)
	return l.retire(retiredKitsDir, k.path, "kit", k.name)
}

// Kit returns the kit of that name.
func (l *Shelf) Kit(name string) (scope.Kit, error) {
	files, unread := l.kitFiles()
	if k, ok := find(files, name); ok {
		return k.value, nil
	}
	if len(unread) > 0 {
		return scope.Kit{}, fmt.Errorf("no kit %s here that can be read: %w", words.Show(name), unread[0])
	}
	retired, _ := l.kitFilesIn(retiredKitsDir)
	if k, ok := find(retired, name); ok {
		return scope.Kit{}, fmt.Errorf("kit %s is retired: to have it back, move %s to %s", words.Show(k.name), words.OneLine(k.path), words.OneLine(l.path(kitsDir)))
	}
	return scope.Kit{}, fmt.Errorf("no kit %s here: spotward kits lists those known", words.Show(name))
}

// SaveKit keeps a kit, in the place of the one with its name.
func (l *Shelf) SaveKit(k scope.Kit) error {
	if _, err := scope.DecodeKit(scope.EncodeKit(k), k.Name); err != nil {
		return err
	}
	files, _ := l.kitFiles()
	path := l.path(kitsDir, k.Name+".toml")
	if known, ok := find(files, k.Name); ok {
		path = known.path
	} else if _, err := os.Lstat(path); err == nil {
		return fmt.Errorf("%s is in the way: give the kit another name, or move that file", words.OneLine(path))
	}
	file, _ := readSmall(path)
	if err := writeWhole(path, scope.ReviseKit(file, k)); err != nil {
		return journal.CannotKeep("kit "+words.Show(k.Name), err)
	}
	return nil
}

// WithKit returns s with the laser of the kit that it names, or s as it is.
func (l *Shelf) WithKit(s scope.Scope) (scope.Scope, error) {
	if s.Kit == "" {
		return s, nil
	}
	k, err := l.Kit(s.Kit)
	if err != nil {
		return s, err
	}
	s.Laser = k.Laser
	if err := s.Check(); err != nil {
		return s, fmt.Errorf("kit %s does not fit %s: %w", words.Show(k.Name), words.Show(s.Name), err)
	}
	return s, nil
}
