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

// Forgotten says what Forget or RenamePerson rewrote, and where the name still
// stands.
type Forgotten struct {
	Records  int      // records that no longer say so
	Journals int      // journals that no longer say so
	Mentions []string // ids of sessions in whose typed words the name is
	Files    []string // other files of the data directory that have it, below it
	Trainees []string // those of that name, as their folders are called
}

// naming is what becomes of a person's name.
type naming struct {
	words.Person
	name string // as it was said
	to   string // "": it is taken out
}

// Forget takes a person's name out of the records, out of the begin and resume
// lines of the journals, out of the notes of who held a session, out of the
// sign-offs and the log of work, however it was typed and also from among others. A place that has the name in it goes as
// well. Ids, times and all that was done stay; every journal can be read as
// before. What somebody typed is left as it is and only reported, and so is what
// a trainee of that name has learnt, and every other file here that has the name
// in it. A session that is open in another program is left and named in the
// errors.
func (l *Shelf) Forget(name string) (Forgotten, []error) {
	return l.name(naming{words.PersonOf(name), name, ""})
}

// RenamePerson calls a person by another name in all that Forget would take it
// out of: one who was written in two ways is one then.
func (l *Shelf) RenamePerson(name, to string) (Forgotten, []error) {
	if err := scope.CheckName(to); err != nil {
		return Forgotten{}, []error{fmt.Errorf("name = %s: expected %w", words.Show(to), err)}
	}
	return l.name(naming{words.PersonOf(name), name, to})
}

func (l *Shelf) name(p naming) (Forgotten, []error) {
	var f Forgotten
	if strings.TrimSpace(p.name) == "" {
		return f, []error{errors.New("a name is wanted, as it stands in the records")}
	}
	if err := l.writable(); err != nil {
		return f, []error{err}
	}
	ids, err := l.journalIDs()
	if err != nil {
		return f, []error{err}
	}
	var errs []error
	for _, id := range ids {
		named, mentioned, err := l.nameInJournal(id, p)
		if err != nil {
			errs = append(errs, err)
		}
		if named {
			f.Journals++
		}
		if mentioned {
			f.Mentions = append(f.Mentions, id)
		}
	}
	if err := l.withRecords(func() error { return l.nameInRecords(p, &f) }); err != nil {
		errs = append(errs, journal.CannotKeep("the records without the name", err))
	}
	if err := l.nameInSigned(p); err != nil {
		errs = append(errs, journal.CannotKeep("the sign-offs without the name", err))
	}
	if p.to != "" {
		errs = append(errs, l.mergeTrainees(p)...)
	}
	if err := l.nameInWork(p); err != nil {
		errs = append(errs, journal.CannotKeep("the log of work without the name", err))
	}
	f.Trainees, f.Files = l.stillNamed(p)
	return f, errs
}

// stillNamed returns the trainees of that name and the other files that have it
// in them: drafts, descriptions, a log of a fault.
func (l *Shelf) stillNamed(p naming) (trainees, files []string) {
	entries, _ := os.ReadDir(l.path(traineesDir))
	for _, e := range entries {
		if p.Is(e.Name()) {
			trainees = append(trainees, e.Name())
		}
	}
	_ = filepath.WalkDir(l.dir, func(path string, e fs.DirEntry, err error) error {
		below, _ := filepath.Rel(l.dir, path)
		switch {
		case err != nil || path == l.dir:
		case e.IsDir() && (below == journalsDir || filepath.Dir(below) == traineesDir && p.Is(e.Name())):
			return filepath.SkipDir // told apart
		case !e.Type().IsRegular() || below == recordsFile:
		case p.In(strings.TrimSuffix(e.Name(), filepath.Ext(e.Name()))):
			files = append(files, below)
		default:
			if data, err := os.ReadFile(path); err == nil && p.In(string(data)) {
				files = append(files, below)
			}
		}
		return nil
	})
	return trainees, files
}

func (l *Shelf) nameInRecords(p naming, f *Forgotten) (err error) {
	f.Records, err = l.changeRecords(p.inLine)
	return err
}

// changeRecords puts other lines in the place of those that change changes, and
// returns how many there were.
func (l *Shelf) changeRecords(change func(line []byte) ([]byte, bool)) (n int, err error) {
	kept, _, err := readRecordLines(l.path(recordsFile))
	if err != nil {
		return 0, err
	}
	var all bytes.Buffer
	for _, r := range kept {
		line, changed := change(r.line)
		if changed {
			n++
		}
		all.Write(summed(line))
	}
	if n == 0 {
		return 0, nil
	}
	return n, writeWhole(l.path(recordsFile), all.Bytes())
}

// nameInJournal reports whether the journal named the person, which it no
// longer does, and whether what was typed in it still does.
func (l *Shelf) nameInJournal(id string, p naming) (named, mentioned bool, err error) {
	path := l.path(journalsDir, id+journal.JournalEnding)
	if err := journal.PlainFile(path); err != nil {
		return false, false, err
	}
	data, err := os.ReadFile(path)
	if err != nil {
		return false, false, journal.CannotRead(path, err)
	}
	out, named := p.inJournal(data)
	mentioned = p.mentioned(out)
	noted := p.holds(journal.ReadHolder(journal.LockPathOf(path)).Who)
	if !named && !noted {
		return false, mentioned, nil
	}
	lock, err := journal.LockSession(path, "")
	if err != nil {
		return false, mentioned, err
	}
	defer lock.Release()
	if err := journal.EraseHolder(journal.LockPathOf(path)); err != nil {
		return false, mentioned, journal.CannotKeep("session "+id+" without the name", err)
	}
	if !named {
		return false, mentioned, nil
	}
	// Read again: until it was locked another program may have gone on with it.
	if data, err = os.ReadFile(path); err != nil {
		return false, mentioned, journal.CannotRead(path, err)
	}
	out, _ = p.inJournal(data)
	if err := writeWhole(path, out); err != nil {
		return false, mentioned, journal.CannotKeep("session "+id+" without the name", err)
	}
	return true, mentioned, nil
}
