package shelf

import (
	"archive/zip"
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"strings"
	"time"

	"spotward/session/event"
	"spotward/session/journal"
	"spotward/session/scope"
)

// PackVersion is the version of the packs this program writes.
const PackVersion = 1

// The parts of a pack: a zip archive with a note of what it is first, then
// files as they are named in a data directory.
const (
	packNote        = "spotward-pack.json"
	packScopes      = "scopes/"
	packRetired     = "scopes/retired/"
	packKits        = "kits/"
	packRetiredKits = "kits/retired/"
	packJournal     = "journals/"
	packTrainees    = "trainees/"
)

type packHead struct {
	V       int       `json:"v"`
	Made    time.Time `json:"made"`
	Program string    `json:"program,omitempty"`
}

// Packed says what a pack holds.
type Packed struct {
	Scopes, Kits, Journals, Trainees, Work int
	Unread                                 []error // a line for each that could not be read and was left out
}

// Pack writes scopes, kits, journals and records to w, to be carried to another
// machine and taken there. What cannot be read is left out and named. After an
// error what was written is no pack.
func (l *Shelf) Pack(w io.Writer, program string, now time.Time) (Packed, error) {
	p := packer{l: l, zip: zip.NewWriter(w), now: now}
	head, err := json.Marshal(packHead{V: PackVersion, Made: now.UTC().Truncate(time.Second), Program: program})
	if err == nil {
		err = p.put(packNote, head)
	}
	for _, part := range []func() error{p.scopes, p.kits, p.journals, p.trainees, p.work} {
		if err == nil {
			err = part()
		}
	}
	if err == nil {
		err = p.zip.Close()
	}
	return p.packed, err
}

type packer struct {
	l      *Shelf
	zip    *zip.Writer
	now    time.Time
	packed Packed
}

func (p *packer) put(name string, data []byte) error {
	f, err := p.zip.CreateHeader(&zip.FileHeader{Name: name, Method: zip.Deflate, Modified: p.now})
	if err != nil {
		return err
	}
	_, err = f.Write(data)
	return err
}

func (p *packer) scopes() error {
	for _, part := range []struct{ dir, name string }{{scopesDir, packScopes}, {retiredDir, packRetired}} {
		files, unread := p.l.scopeFiles(part.dir)
		p.packed.Unread = append(p.packed.Unread, unread...)
		for _, f := range files {
			if err := p.put(part.name+f.name+".toml", fileOr(f.path, scope.EncodeScope(f.value))); err != nil {
				return err
			}
			p.packed.Scopes++
		}
	}
	return nil
}

func (p *packer) kits() error {
	for _, part := range []struct{ dir, name string }{{kitsDir, packKits}, {retiredKitsDir, packRetiredKits}} {
		files, unread := p.l.kitFilesIn(part.dir)
		p.packed.Unread = append(p.packed.Unread, unread...)
		for _, f := range files {
			if err := p.put(part.name+f.name+".toml", fileOr(f.path, scope.EncodeKit(f.value))); err != nil {
				return err
			}
			p.packed.Kits++
		}
	}
	return nil
}

// fileOr returns a file as it is, comments and all, or else what is given.
func fileOr(path string, otherwise []byte) []byte {
	if data, err := readSmall(path); err == nil {
		return data
	}
	return otherwise
}

// journals puts in each journal up to its last whole line.
func (p *packer) journals() error {
	ids, err := p.l.journalIDs()
	if err != nil {
		return err
	}
	for _, id := range ids {
		path := p.l.path(journalsDir, id+journal.JournalEnding)
		data, lines, err := readWholeJournal(path)
		switch {
		case err != nil:
			p.packed.Unread = append(p.packed.Unread, err)
			continue
		case lines == 0:
			continue
		}
		if err := p.put(packJournal+filepath.Base(path), data); err != nil {
			return err
		}
		p.packed.Journals++
	}
	return nil
}

// readWholeJournal returns what of a journal is whole lines.
func readWholeJournal(path string) (data []byte, lines int, err error) {
	if err := journal.PlainFile(path); err != nil {
		return nil, 0, err
	}
	if data, err = os.ReadFile(path); err != nil {
		return nil, 0, journal.CannotRead(path, err)
	}
	data, err = wholeJournal(data, filepath.Base(path), func(event.Line) { lines++ })
	return data, lines, err
}

// wholeJournal checks a journal's lines, hands them to each, and returns what
// of it is whole.
func wholeJournal(data []byte, name string, each func(event.Line)) ([]byte, error) {
	report, err := journal.ScanLines(bytes.NewReader(data), name, func(l event.Line) error {
		each(l)
		return nil
	})
	if err != nil {
		return nil, err
	}
	return data[:report.Size], nil
}

// readPackHead checks what a pack says of itself.
func readPackHead(data []byte) error {
	var head packHead
	switch {
	case json.Unmarshal(data, &head) != nil || head.V < 1:
		return errors.New("this is no pack: its note cannot be read")
	case head.V > PackVersion:
		return fmt.Errorf("this pack was made by a newer program (version %d): take it with that one", head.V)
	}
	return nil
}

// entryStem returns the name of a pack's entry without its part and ending,
// and false where it does not lie right below that part.
func entryStem(entry, part, ending string) (string, bool) {
	stem, below := strings.CutPrefix(entry, part)
	stem, ends := strings.CutSuffix(stem, ending)
	return stem, below && ends && !strings.ContainsAny(stem, `/\`)
}
