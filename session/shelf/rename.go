package shelf

import (
	"errors"
	"fmt"
	"os"

	"spotward/session/journal"
	"spotward/session/scope"
	"spotward/session/words"
)

// Renamed says what was renamed in.
type Renamed struct{ Journals, Records int }

// KnownNameError says that what is to be renamed would be one with another of the
// new name. The caller asks whether that is meant.
type KnownNameError struct{ Name string }

func (e *KnownNameError) Error() string {
	return words.Show(e.Name) + " is here already: with --merge the two are one from then on"
}

func saysScope(member string) bool { return member == scopeMember || member == scopeMember+".name" }

func saysKit(member string) bool { return member == "kit" || member == scopeMember+".kit" }

// RenameScope calls a scope by another name in its file, in records and journals,
// and in the log of work. With merge it is one with the scope of that name: its
// file is retired then. A session that is open in another program is left and
// named in the errors.
func (l *Shelf) RenameScope(name, to string, merge bool) (Renamed, []error) {
	files, _ := l.scopeFiles(scopesDir)
	known, ok := find(files, name)
	_, taken := find(files, to)
	if err := l.mayRename(name, to, ok, taken, merge, saysScope); err != nil {
		return Renamed{}, []error{err}
	}
	done, errs := l.renameAll(name, to, saysScope)
	switch {
	case len(errs) > 0 || !ok:
		return done, errs // its file goes last: what failed can be tried again
	case taken && !scope.SameName(name, to):
		return done, asList(l.RetireScope(name))
	}
	s := known.value
	s.Name = to
	file, _ := readSmall(known.path)
	return done, asList(l.moveFile(known.path, l.path(scopesDir, to+tomlEnding), scope.ReviseScope(file, s), scope.SameName(name, to)))
}

// RenameKit does the same of a kit. Scopes whose files name it name it anew.
func (l *Shelf) RenameKit(name, to string, merge bool) (Renamed, []error) {
	files, _ := l.kitFiles()
	known, ok := find(files, name)
	_, taken := find(files, to)
	if err := l.mayRename(name, to, ok, taken, merge, saysKit); err != nil {
		return Renamed{}, []error{err}
	}
	done, errs := l.renameAll(name, to, saysKit)
	scopes, _ := l.Scopes()
	for _, s := range scopes {
		if s.Kit != "" && scope.SameName(s.Kit, name) {
			s.Kit = to
			errs = append(errs, asList(l.SaveScope(s))...)
		}
	}
	switch {
	case len(errs) > 0 || !ok:
		return done, errs
	case taken && !scope.SameName(name, to):
		return done, asList(l.RetireKit(name))
	}
	k := known.value
	k.Name = to
	file, _ := readSmall(known.path)
	return done, asList(l.moveFile(known.path, l.path(kitsDir, to+tomlEnding), scope.ReviseKit(file, k), scope.SameName(name, to)))
}

func asList(err error) []error {
	if err == nil {
		return nil
	}
	return []error{err}
}

// mayRename reports why not, nil where it may.
func (l *Shelf) mayRename(name, to string, known, taken, merge bool, says func(member string) bool) error {
	if err := scope.CheckName(to); err != nil {
		return fmt.Errorf("name = %s: expected %w", words.Show(to), err)
	}
	for _, n := range []string{name, to} {
		if says(scopeMember) && scope.SameName(n, scope.Builtin().Name) {
			return fmt.Errorf("%s is built in, and always called so", scope.Builtin().Name)
		}
	}
	records, _ := l.Records()
	for _, r := range records {
		of := r.Kit
		if says(scopeMember) {
			of = r.Scope
		}
		known, taken = known || scope.SameName(of, name), taken || scope.SameName(of, to)
	}
	switch {
	case !known:
		return fmt.Errorf("nothing here is called %s", words.Show(name))
	case taken && !merge && !scope.SameName(name, to):
		return &KnownNameError{to}
	}
	return l.writable()
}

// renameAll names anew in journals, records and the log of work.
func (l *Shelf) renameAll(name, to string, says func(member string) bool) (done Renamed, errs []error) {
	line := func(line []byte) ([]byte, bool) {
		return withTexts(line, func(member, said string) (string, bool) {
			return to, says(member) && scope.SameName(said, name) && said != to
		})
	}
	ids, err := l.journalIDs()
	if err != nil {
		return done, []error{err}
	}
	for _, id := range ids {
		changed, err := l.changeJournal(id, line)
		if changed {
			done.Journals++
		}
		errs = append(errs, asList(err)...)
	}
	err = l.withRecords(func() (err error) {
		done.Records, err = l.changeRecords(line)
		return err
	})
	if err != nil {
		errs = append(errs, journal.CannotKeep("the records with the new name", err))
	}
	if err := l.changeWork(line); err != nil {
		errs = append(errs, journal.CannotKeep("the log of work with the new name", err))
	}
	return done, errs
}

// changeJournal changes the lines of a journal that say who came and to what.
func (l *Shelf) changeJournal(id string, line func([]byte) ([]byte, bool)) (bool, error) {
	path := l.path(journalsDir, id+journal.JournalEnding)
	keep := func(string) bool { return false }
	data, err := l.journalData(path)
	if err != nil {
		return false, err
	}
	if _, changed := journalWith(data, line, keep); !changed {
		return false, nil
	}
	lock, err := journal.LockSession(path, "")
	if err != nil {
		return false, err
	}
	defer lock.Release()
	// Read again: until it was locked another program may have gone on with it.
	if data, err = l.journalData(path); err != nil {
		return false, err
	}
	data, _ = journalWith(data, line, keep)
	if err := writeWhole(path, data); err != nil {
		return false, journal.CannotKeep("session "+id+" with the new name", err)
	}
	return true, nil
}

func (l *Shelf) journalData(path string) ([]byte, error) {
	if err := journal.PlainFile(path); err != nil {
		return nil, err
	}
	data, err := os.ReadFile(path)
	if err != nil {
		return nil, journal.CannotRead(path, err)
	}
	return data, nil
}

// moveFile writes a description to another path and removes the old one; the same
// stays where it is.
func (l *Shelf) moveFile(from, to string, data []byte, same bool) error {
	if same {
		to = from
	} else if _, err := os.Lstat(to); err == nil {
		return fmt.Errorf("%s is in the way: move that file", words.OneLine(to))
	}
	err := writeWhole(to, data)
	if err == nil && !same {
		err = errors.Join(os.Remove(from))
	}
	if err != nil {
		return journal.CannotKeep("the description under its new name", err)
	}
	return nil
}
