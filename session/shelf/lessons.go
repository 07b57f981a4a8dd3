package shelf

import (
	"encoding/json"
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"strings"

	"spotward/session/journal"
	"spotward/session/lesson"
	"spotward/session/scope"
)

const lessonsFile = "lessons.jsonl"

// AddLesson keeps a result for the trainee of that name.
func (l *Shelf) AddLesson(trainee string, r lesson.Result) error {
	return l.addLine(trainee, lessonsFile, "the lesson", r)
}

// addLine writes a line at the end of one of a trainee's files.
func (l *Shelf) addLine(trainee, name, what string, value any) error {
	dir, err := l.TraineeDir(trainee)
	if err != nil {
		return err
	}
	if err := os.MkdirAll(dir, 0o755); err != nil {
		return journal.CannotKeep(what, err)
	}
	return appendLine(filepath.Join(dir, name), what, value)
}

// appendLine writes a line at the end of a file of lines.
func appendLine(path, what string, value any) error {
	line, err := json.Marshal(value)
	if err != nil {
		return journal.CannotKeep(what, err)
	}
	if info, err := os.Lstat(path); err == nil && !info.Mode().IsRegular() {
		return journal.PlainFile(path)
	}
	f, err := os.OpenFile(path, os.O_APPEND|os.O_CREATE|os.O_WRONLY, 0o644)
	if err != nil {
		return journal.CannotKeep(what, err)
	}
	// A line that a power cut has torn off ends where this one begins.
	_, err = f.Write(append(append([]byte{'\n'}, line...), '\n'))
	if err := errors.Join(err, f.Sync(), f.Close()); err != nil {
		return journal.CannotKeep(what, err)
	}
	return nil
}

// Trainees returns the names of those of whom lessons are kept, in the order of
// the alphabet.
func (l *Shelf) Trainees() ([]string, error) {
	dir := l.path(traineesDir)
	entries, err := os.ReadDir(dir)
	if err != nil && !errors.Is(err, fs.ErrNotExist) {
		return nil, journal.CannotRead(dir, err)
	}
	var names []string
	for _, e := range entries {
		_, err := os.Stat(l.path(traineesDir, e.Name(), lessonsFile))
		if err == nil && scope.CheckName(e.Name()) == nil {
			names = append(names, e.Name())
		}
	}
	return names, nil
}

// LessonsOf returns the results of the trainee of that name, oldest first. A
// line that cannot be read, such as one torn off by a power cut, is left out.
func (l *Shelf) LessonsOf(trainee string) ([]lesson.Result, error) {
	dir, err := l.TraineeDir(trainee)
	if err != nil {
		return nil, err
	}
	data, err := os.ReadFile(filepath.Join(dir, lessonsFile))
	if errors.Is(err, fs.ErrNotExist) {
		return nil, nil
	}
	if err != nil {
		return nil, journal.CannotRead(dir, err)
	}
	var all []lesson.Result
	for line := range strings.Lines(string(data)) {
		var r lesson.Result
		if json.Unmarshal([]byte(line), &r) == nil && r.Lesson != "" {
			all = append(all, r)
		}
	}
	return all, nil
}
