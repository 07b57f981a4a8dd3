package shelf

import (
	"bytes"
	"encoding/json"
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"spotward/session/journal"
	"spotward/session/lesson"
	"spotward/session/scope"
)

const signedFile = "signed.jsonl"

// AddSigned keeps a sign-off with the trainee of that name.
func (l *Shelf) AddSigned(trainee string, s lesson.Signed) error {
	return l.addLine(trainee, signedFile, "the sign-off", s)
}

// SignedOf returns the sign-offs of the trainee of that name, oldest first. A
// line that cannot be read is left out.
func (l *Shelf) SignedOf(trainee string) ([]lesson.Signed, error) {
	data, err := l.traineeFile(trainee, signedFile)
	if err != nil {
		return nil, err
	}
	var all []lesson.Signed
	for line := range strings.Lines(string(data)) {
		var s lesson.Signed
		if json.Unmarshal([]byte(line), &s) == nil && s.V > 0 {
			all = append(all, s)
		}
	}
	return all, nil
}

// traineeFile reads one of a trainee's files; nothing where there is none.
func (l *Shelf) traineeFile(trainee, name string) ([]byte, error) {
	dir, err := l.TraineeDir(trainee)
	if err != nil {
		return nil, err
	}
	path := filepath.Join(dir, name)
	if info, err := os.Lstat(path); err == nil && !info.Mode().IsRegular() {
		return nil, journal.PlainFile(path)
	}
	data, err := os.ReadFile(path)
	if errors.Is(err, fs.ErrNotExist) {
		return nil, nil
	}
	if err != nil {
		return nil, journal.CannotRead(dir, err)
	}
	return data, nil
}

// nameInSigned names a person anew in the sign-offs. Where the name is only taken
// out, those of that person go, and those that the person gave do not say by
// whom.
func (l *Shelf) nameInSigned(p naming) error {
	is := p.Is
	entries, err := os.ReadDir(l.path(traineesDir))
	if err != nil && !errors.Is(err, fs.ErrNotExist) {
		return err
	}
	var errs []error
	for _, e := range entries {
		path := l.path(traineesDir, e.Name(), signedFile)
		if is(e.Name()) && p.to == "" {
			if err := os.Remove(path); err != nil && !errors.Is(err, fs.ErrNotExist) {
				errs = append(errs, err)
			}
			continue
		}
		signed, err := l.SignedOf(e.Name())
		if err != nil || !slices.ContainsFunc(signed, func(s lesson.Signed) bool { return is(s.By) }) {
			continue
		}
		var all bytes.Buffer
		for _, s := range signed {
			if is(s.By) {
				s.By = p.to
			}
			line, err := json.Marshal(s)
			errs = append(errs, err)
			all.Write(append(line, '\n'))
		}
		errs = append(errs, writeWhole(path, all.Bytes()))
	}
	return errors.Join(errs...)
}

// packedTrainee are the files of a trainee that go into a pack.
var packedTrainee = []string{lessonsFile, signedFile}

// trainees puts in what trainees have done, and who signed it.
func (p *packer) trainees() error {
	names, err := p.l.Trainees()
	if err != nil {
		p.packed.Unread = append(p.packed.Unread, err)
		return nil
	}
	for _, name := range names {
		for _, file := range packedTrainee {
			data, err := p.l.traineeFile(name, file)
			if err != nil {
				p.packed.Unread = append(p.packed.Unread, err)
				continue
			}
			if len(data) == 0 {
				continue
			}
			if err := p.put(packTrainees+name+"/"+file, data); err != nil {
				return err
			}
		}
		p.packed.Trainees++
	}
	return nil
}

// traineeStem returns a trainee's name and the file's, of a pack's entry.
func traineeStem(entry string) (string, bool) {
	stem, below := strings.CutPrefix(entry, packTrainees)
	stem, ends := strings.CutSuffix(stem, ".jsonl")
	return stem, below && ends && strings.Count(stem, "/") == 1
}

var errNoTrainee = errors.New("no trainee's file: expected trainees/NAME/lessons.jsonl or signed.jsonl")

// trainee takes the lines of a trainee's file that are not here yet.
func (t *taker) trainee(stem string, data []byte) error {
	name, file, ok := strings.Cut(stem, "/")
	file += ".jsonl"
	if !ok || scope.CheckName(name) != nil || !slices.Contains(packedTrainee, file) {
		return errNoTrainee
	}
	brought, err := t.l.addTraineeLines(name, file, data)
	switch {
	case err != nil:
		return err
	case brought:
		t.taken.Trainees++
	default:
		t.taken.Known++
	}
	return nil
}

// addTraineeLines adds the lines to a trainee's file that are not there yet, and
// reports whether there was one.
func (l *Shelf) addTraineeLines(name, file string, data []byte) (brought bool, err error) {
	here, err := l.traineeFile(name, file)
	if err != nil {
		return false, err
	}
	known := map[string]bool{}
	for line := range strings.Lines(string(here)) {
		known[strings.TrimSpace(line)] = true
	}
	for line := range strings.Lines(string(data)) {
		line = strings.TrimSpace(line)
		if line == "" || known[line] || !fitsTrainee(file, line) {
			continue
		}
		if err := l.addLine(name, file, "a trainee's lessons", json.RawMessage(line)); err != nil {
			return brought, err
		}
		brought = true
	}
	return brought, nil
}

// mergeTrainees puts what the trainees of that name have learnt with what the
// other name has.
func (l *Shelf) mergeTrainees(p naming) (errs []error) {
	entries, _ := os.ReadDir(l.path(traineesDir))
	for _, e := range entries {
		if !p.Is(e.Name()) || e.Name() == p.to {
			continue
		}
		err := os.Rename(l.path(traineesDir, e.Name()), l.path(traineesDir, p.to))
		for _, file := range packedTrainee {
			data, read := l.traineeFile(e.Name(), file)
			if err == nil || read != nil || len(data) == 0 {
				continue // it was renamed whole, or there is nothing
			}
			if _, err := l.addTraineeLines(p.to, file, data); err != nil {
				errs = append(errs, err)
				continue
			}
			errs = append(errs, os.Remove(l.path(traineesDir, e.Name(), file)))
		}
		_ = os.Remove(l.path(traineesDir, e.Name())) // where nothing else is in it
	}
	return slices.DeleteFunc(errs, func(err error) bool { return err == nil })
}

// fitsTrainee reports whether a line is one of such a file.
func fitsTrainee(file, line string) bool {
	if file == lessonsFile {
		var r lesson.Result
		return json.Unmarshal([]byte(line), &r) == nil && r.Lesson != ""
	}
	var s lesson.Signed
	return json.Unmarshal([]byte(line), &s) == nil && s.V > 0
}
