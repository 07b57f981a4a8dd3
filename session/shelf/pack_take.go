package shelf

import (
	"archive/zip"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"os"
	"strings"

	"spotward/session"
	"spotward/session/journal"
	"spotward/session/scope"
	"spotward/session/words"
)

// What a pack may be at most: more is no shelf but an attack, or another
// program's archive.
const (
	maxPackEntries = 200_000
	maxPackBytes   = 4 << 30  // all entries, unpacked
	maxEntryBytes  = 64 << 20 // a journal
	maxNoteBytes   = 4 << 10
)

// Taken says what Take brought in.
type Taken struct {
	Scopes, Kits, Journals int // new here
	Trainees               int // of whom something was new here
	Work                   int // lines of the log of work that are new here
	Longer                 int // journals that had gone on elsewhere
	Known                  int // files that were here already
	Differ                 []Differ
	Refused                []error // a line for each that was not taken, with the reason
}

// Prefer says which description counts where the one in the pack and the one here
// differ: none, the one here, or the one in the pack.
type Prefer uint8

// PreferNone refuses the one in the pack and says so.
const (
	PreferNone Prefer = iota
	PreferOurs
	PreferTheirs
)

// Differ is a description that is another in the pack than here.
type Differ struct {
	What, Name string
	Lines      []string // how: what it is here, and what there
}

// Take brings in the scopes, kits and journals of a pack. Nothing that is here
// is changed, but that a session which has gone on elsewhere gets the lines it
// lacks; what stands against it is refused and named, and the rest taken.
// Taking a pack again changes nothing. The error is of the pack as a whole.
func (l *Shelf) Take(pack io.ReaderAt, size int64) (Taken, error) {
	return l.TakeWith(pack, size, PreferNone)
}

// TakeWith does the same, but where descriptions differ the one that is preferred
// counts.
func (l *Shelf) TakeWith(pack io.ReaderAt, size int64, prefer Prefer) (Taken, error) {
	z, err := zip.NewReader(pack, size)
	if err != nil {
		return Taken{}, fmt.Errorf("this is no pack: %w", err)
	}
	if len(z.File) > maxPackEntries {
		return Taken{}, fmt.Errorf("this is no pack: %d files, expected at most %d", len(z.File), maxPackEntries)
	}
	t := taker{l: l, left: maxPackBytes, prefer: prefer}
	t.scopes, _ = l.scopeFiles(scopesDir)
	t.retired, _ = l.scopeFiles(retiredDir)
	t.kits, _ = l.kitFiles()
	t.retiredKits, _ = l.kitFilesIn(retiredKitsDir)
	if err := t.head(z.File); err != nil {
		return Taken{}, err
	}
	for i, f := range z.File {
		l.progress(i, len(z.File))
		if err := t.entry(f); err != nil {
			var unkept *journal.UnkeptError
			if errors.As(err, &unkept) {
				return t.taken, err // the disk, not the pack
			}
			t.taken.Refused = append(t.taken.Refused, fmt.Errorf("%s: %w", words.Show(f.Name), err))
		}
	}
	return t.taken, errors.Join(t.keepRecords(), journal.SyncDir(l.path(journalsDir)))
}

type taker struct {
	l           *Shelf
	taken       Taken
	left        int64 // bytes that may still be unpacked
	scopes      []named[scope.Scope]
	retired     []named[scope.Scope]
	kits        []named[scope.Kit]
	retiredKits []named[scope.Kit]
	prefer      Prefer
	records     []session.Record // of the journals that it brought
}

// head finds the note that says it is a pack.
func (t *taker) head(files []*zip.File) error {
	for _, f := range files {
		if f.Name == packNote {
			data, err := t.read(f, maxNoteBytes)
			if err != nil {
				return fmt.Errorf("this is no pack: %s: %w", packNote, err)
			}
			return readPackHead(data)
		}
	}
	return fmt.Errorf("this is no pack: there is no %s in it", packNote)
}

// entry takes one entry, or says why not.
func (t *taker) entry(f *zip.File) error {
	if f.Name == packNote || strings.HasSuffix(f.Name, "/") && f.UncompressedSize64 == 0 {
		return nil // the note, a folder
	}
	if !f.Mode().IsRegular() {
		return errors.New("not a plain file")
	}
	if f.Name == recordsFile {
		return nil // the journals say it, and are asked
	}
	if f.Name == workFile {
		data, err := t.read(f, maxWorkBytes)
		if err != nil {
			return err
		}
		return t.work(data)
	}
	for _, part := range []struct {
		dir, ending string
		max         int64
		take        func(stem string, data []byte) error
	}{
		{packRetired, ".toml", scope.MaxFileBytes, t.retiredScope},
		{packScopes, ".toml", scope.MaxFileBytes, t.scope},
		{packRetiredKits, ".toml", scope.MaxFileBytes, t.retiredKit},
		{packKits, ".toml", scope.MaxFileBytes, t.kit},
		{packJournal, journal.JournalEnding, maxEntryBytes, t.journal},
		{packTrainees, ".jsonl", scope.MaxFileBytes, t.trainee},
	} {
		stem, ok := entryStem(f.Name, part.dir, part.ending)
		if part.dir == packTrainees && !ok { // a folder for each
			stem, ok = traineeStem(f.Name)
		}
		if !ok {
			continue
		}
		data, err := t.read(f, part.max)
		if err != nil {
			return err
		}
		return part.take(stem, data)
	}
	return errors.New("no file of a data directory: expected scopes/NAME.toml, kits/NAME.toml, journals/ID.jsonl or trainees/NAME/lessons.jsonl")
}

// read unpacks an entry, whatever it says of its own size.
func (t *taker) read(f *zip.File, most int64) ([]byte, error) {
	r, err := f.Open()
	if err != nil {
		return nil, fmt.Errorf("damaged: %w", err)
	}
	defer r.Close()
	if t.left <= 0 {
		return nil, fmt.Errorf("the pack holds more than %d MB: what is behind is left", maxPackBytes>>20)
	}
	most = min(most, t.left)
	data, err := io.ReadAll(io.LimitReader(r, most+1))
	t.left -= int64(len(data))
	if err != nil {
		return nil, fmt.Errorf("damaged: %w", err)
	}
	if int64(len(data)) > most {
		return nil, fmt.Errorf("too long: expected at most %d KB", most>>10)
	}
	return data, nil
}

// create writes a file that is not there yet.
func (t *taker) create(dir, name string, data []byte) (string, error) {
	path := t.l.path(dir, name)
	if _, err := os.Lstat(path); err == nil {
		return "", fmt.Errorf("%s is in the way here", words.OneLine(path))
	}
	if err := writeQuick(path, data); err != nil {
		return "", journal.CannotKeep(words.OneLine(name), err)
	}
	return path, nil
}

// keepRecords keeps the records of what was brought, so that it is not folded
// again.
func (t *taker) keepRecords() error {
	if len(t.records) == 0 {
		return nil
	}
	records := make([]keptRecord, len(t.records))
	for i, r := range t.records {
		line, err := json.Marshal(r)
		if err != nil {
			return journal.CannotKeep("the records", err)
		}
		records[i] = keptRecord{r, line}
	}
	if err := t.l.withRecords(func() error { return t.l.rewrite(records) }); err != nil {
		return journal.CannotKeep("the records", err)
	}
	return nil
}
