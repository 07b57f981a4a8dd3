package session

import (
	"fmt"
	"os"
)

// Kits returns the kits known here in the order of their names, and a line for
// each file that cannot be read.
func (l *Library) Kits() ([]Kit, []error) {
	files, unread := l.kitFiles()
	return values(files), unread
}

func (l *Library) kitFiles() ([]named[Kit], []error) {
	return readAll(l.path(kitsDir), func(data []byte, stem string) (Kit, string, error) {
		k, err := DecodeKit(data, stem)
		return k, k.Name, err
	})
}

// Kit returns the kit of that name.
func (l *Library) Kit(name string) (Kit, error) {
	files, unread := l.kitFiles()
	if k, ok := find(files, name); ok {
		return k.value, nil
	}
	if len(unread) > 0 {
		return Kit{}, fmt.Errorf("no kit %s here that can be read: %w", show(name), unread[0])
	}
	return Kit{}, fmt.Errorf("no kit %s here: spotward kits lists those known", show(name))
}

// SaveKit keeps a kit, in the place of the one with its name.
func (l *Library) SaveKit(k Kit) error {
	data := EncodeKit(k)
	if _, err := DecodeKit(data, k.Name); err != nil {
		return err
	}
	files, _ := l.kitFiles()
	path := l.path(kitsDir, k.Name+".toml")
	if known, ok := find(files, k.Name); ok {
		path = known.path
	} else if _, err := os.Lstat(path); err == nil {
		return fmt.Errorf("%s is in the way: give the kit another name, or move that file", oneLine(path))
	}
	if err := writeWhole(path, data); err != nil {
		return cannotKeep("kit "+show(k.Name), err)
	}
	return nil
}

// WithKit returns s with the laser of the kit that it names, or s as it is.
func (l *Library) WithKit(s Scope) (Scope, error) {
	if s.Kit == "" {
		return s, nil
	}
	k, err := l.Kit(s.Kit)
	if err != nil {
		return s, err
	}
	s.Laser = k.Laser
	if err := s.check(); err != nil {
		return s, fmt.Errorf("kit %s does not fit %s: %w", show(k.Name), show(s.Name), err)
	}
	return s, nil
}
