package shelf

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"os"
	"strings"
	"unicode"
	"unicode/utf8"

	"spotward/session/event"
	"spotward/session/journal"
	"spotward/session/scope"
	"spotward/session/words"
)

// Forgotten says what Forget rewrote, and where the name still stands.
type Forgotten struct {
	Records  int      // records that no longer say who
	Journals int      // journals that no longer say who
	Mentions []string // ids of sessions in whose typed words the name is
	Trainee  bool     // there is a trainee of that name
}

// Forget takes a person's name out of the records, out of the begin and resume
// lines of the journals, and out of the notes of who held a session. Ids, times
// and all that was done stay; every journal can be read as before. What
// somebody typed is left as it is and only reported, and so is what a trainee
// of that name has learnt. A session that is open in another program is left
// and named in the errors.
func (l *Shelf) Forget(name string) (Forgotten, []error) {
	var f Forgotten
	if strings.TrimSpace(name) == "" {
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
		named, mentioned, err := l.forgetInJournal(id, name)
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
	if err := l.withRecords(func() error { return l.forgetInRecords(name, &f) }); err != nil {
		errs = append(errs, journal.CannotKeep("the records without the name", err))
	}
	if dir, err := l.TraineeDir(name); err == nil {
		_, err := os.Stat(dir)
		f.Trainee = err == nil
	}
	return f, errs
}

func (l *Shelf) forgetInRecords(name string, f *Forgotten) error {
	kept, _, err := readRecords(l.path(recordsFile))
	if err != nil {
		return err
	}
	var all bytes.Buffer
	for _, r := range kept {
		line, changed := withoutWho(r.line, name)
		if changed {
			f.Records++
		}
		all.Write(line)
		all.WriteByte('\n')
	}
	if f.Records == 0 {
		return nil
	}
	return writeWhole(l.path(recordsFile), all.Bytes())
}

// forgetInJournal reports whether the journal named the person, which it no
// longer does, and whether what was typed in it still does.
func (l *Shelf) forgetInJournal(id, name string) (named, mentioned bool, err error) {
	path := l.path(journalsDir, id+journal.JournalEnding)
	if err := journal.PlainFile(path); err != nil {
		return false, false, err
	}
	data, err := os.ReadFile(path)
	if err != nil {
		return false, false, journal.CannotRead(path, err)
	}
	out, named := journalWithoutWho(data, name)
	mentioned = mentions(out, name)
	noted := scope.SameName(journal.ReadHolder(journal.LockPathOf(path)).Who, words.Cut(name, words.NameRunes))
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
	out, _ = journalWithoutWho(data, name)
	if err := writeWhole(path, out); err != nil {
		return false, mentioned, journal.CannotKeep("session "+id+" without the name", err)
	}
	return true, mentioned, nil
}

// journalWithoutWho takes the name out of the lines that say who came, and makes
// the sums anew. All else stays as it is, to the byte, but for a last line that
// was never finished and has the name in it: nobody reads that one. From a line
// on that did not fit before, none does after.
func journalWithoutWho(data []byte, name string) (out []byte, changed bool) {
	var was, is []byte // the line before, as it was and as it is now
	fitted := true
	for line := range bytes.Lines(data) {
		text, whole := bytes.CutSuffix(line, []byte{'\n'})
		if !whole {
			if bytes.Contains(bytes.ToLower(text), []byte(strings.ToLower(strings.TrimSpace(name)))) {
				line, changed = nil, true
			}
			out = append(out, line...)
			break
		}
		fitted = fitted && journal.Fits(was, line)
		now := line
		if saysWhoCame(text) {
			if without, did := withoutWho(text, name); did {
				now, changed = append(without, '\n'), true
			}
		}
		if open, ok := journal.Open(now); fitted && ok {
			now = journal.Summed(is, open)
		}
		was, is = line, now
		out = append(out, now...)
	}
	return out, changed
}

func saysWhoCame(line []byte) bool {
	var head journal.LineHead
	if json.Unmarshal(line, &head) != nil {
		return false
	}
	switch event.Kind(head.Kind) {
	case event.KindBegin, event.KindResume, event.KindRecord:
		return true
	}
	return false
}

// withoutWho returns a JSON object without its member "who", if that is the
// name, and its member "record" without its own. The other members stay as they are and where they are.
func withoutWho(line []byte, name string) ([]byte, bool) {
	dec := json.NewDecoder(bytes.NewReader(line))
	if _, err := dec.Token(); err != nil {
		return line, false
	}
	found := false
	var members [][]byte
	for dec.More() {
		key, err := dec.Token()
		if err != nil {
			return line, false
		}
		var value json.RawMessage
		if err := dec.Decode(&value); err != nil {
			return line, false
		}
		var who string
		member, _ := key.(string)
		if strings.EqualFold(member, "who") && json.Unmarshal(value, &who) == nil && scope.SameName(strings.TrimSpace(who), strings.TrimSpace(name)) {
			found = true
			continue
		}
		if member == string(event.KindRecord) {
			if without, did := withoutWho(value, name); did {
				found, value = true, without
			}
		}
		text, err := json.Marshal(key)
		if err != nil {
			return line, false
		}
		members = append(members, fmt.Appendf(text, ":%s", value))
	}
	if !found {
		return line, false
	}
	return append(append([]byte("{"), bytes.Join(members, []byte(","))...), '}'), true
}

// mentions reports whether the name stands, as words of its own, in what was
// typed.
func mentions(journal []byte, name string) bool {
	name = strings.ToLower(strings.TrimSpace(name))
	for line := range bytes.Lines(journal) {
		var typed struct {
			Text string `json:"text"`
			Why  string `json:"why"`
		}
		if json.Unmarshal(line, &typed) == nil && hasWords(strings.ToLower(typed.Text+" "+typed.Why), name) {
			return true
		}
	}
	return false
}

func hasWords(text, words string) bool {
	letter := func(r rune) bool { return unicode.IsLetter(r) || unicode.IsDigit(r) }
	for {
		before, after, found := strings.Cut(text, words)
		if !found {
			return false
		}
		last, _ := utf8.DecodeLastRuneInString(before)
		next, _ := utf8.DecodeRuneInString(after)
		if !letter(last) && !letter(next) {
			return true
		}
		text = after
	}
}
