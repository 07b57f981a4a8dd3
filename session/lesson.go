package session

import (
	"encoding/json"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"time"

	"spotward/optics"
)

// Lesson is a short exercise at the practice telescope: five minutes at most.
type Lesson struct {
	ID    string
	Title string
	Aim   string // what one can do afterwards
	Done  string // what counts as done
	Clean bool   // nothing may be done that would have done harm
	Tasks []Task
}

// TaskKind says what kind of thing a task asks for.
type TaskKind string

// The kinds. A question has answers to choose from. Of a reading the place is
// wanted, of a way only where the spot went as a screw was turned. Work is a
// session, from a stage until something is reached.
const (
	TaskQuestion TaskKind = "question"
	TaskReading  TaskKind = "reading"
	TaskWay      TaskKind = "way"
	TaskWork     TaskKind = "work"
)

// Task is one thing to do in a lesson.
type Task struct {
	Kind  TaskKind
	Say   string
	Why   string // said when it is answered, rightly or not
	World *World // another telescope from here on; nil: the one before
	// FocuserAt is where that telescope's focuser is seen from the sky end.
	FocuserAt Clock
	Face      optics.Face // what is looked at

	Options []Option // of a question
	Right   string

	Turn Turn // of a way: turned first

	From    StageID          // of work: where it begins
	Verdict string           // and with which verdict it came there
	Until   func(State) bool // it is over
	Met     func(State) bool // and what it was for is reached
}

// LessonResult is one time that a lesson was taken, for an instructor to read.
type LessonResult struct {
	V        int       `json:"v"`
	T        time.Time `json:"t"`
	Lesson   string    `json:"lesson"`
	Passed   bool      `json:"passed"`
	Tasks    int       `json:"tasks"`
	Wrong    int       `json:"wrong"` // answers that were not right the first time
	Readings int       `json:"readings,omitempty"`
	Good     int       `json:"good,omitempty"`    // of the readings, within half an hour and a quarter
	Swapped  int       `json:"swapped,omitempty"` // left for right
	Looks    int       `json:"looks,omitempty"`
	Moves    int       `json:"moves,omitempty"`
	Possible int       `json:"possible,omitempty"` // moves that would have done on that telescope
	Deeds    []string  `json:"deeds,omitempty"`    // what would have done harm
	Stopped  bool      `json:"stopped,omitempty"`  // made safe
}

// LessonByName returns the lesson of that number in the ladder or of that id.
func LessonByName(name string) (Lesson, error) {
	var ids []string
	for i, l := range Lessons() {
		if strings.EqualFold(name, l.ID) || name == fmt.Sprint(i+1) {
			return l, nil
		}
		ids = append(ids, l.ID)
	}
	return Lesson{}, fmt.Errorf("no lesson %s: a number from 1 to %d, or one of %s", show(name), len(ids), strings.Join(ids, ", "))
}

const lessonsFile = "lessons.jsonl"

// AddLesson keeps a result for the trainee of that name.
func (l *Library) AddLesson(trainee string, r LessonResult) error {
	dir, err := l.TraineeDir(trainee)
	if err != nil {
		return err
	}
	if err := os.MkdirAll(dir, 0o755); err != nil {
		return cannotKeep("the lesson", err)
	}
	line, err := json.Marshal(r)
	if err != nil {
		return cannotKeep("the lesson", err)
	}
	f, err := os.OpenFile(filepath.Join(dir, lessonsFile), os.O_APPEND|os.O_CREATE|os.O_WRONLY, 0o644)
	if err != nil {
		return cannotKeep("the lesson", err)
	}
	// A line that a power cut has torn off ends where this one begins.
	_, err = f.Write(append(append([]byte{'\n'}, line...), '\n'))
	if err := errors.Join(err, f.Sync(), f.Close()); err != nil {
		return cannotKeep("the lesson", err)
	}
	return nil
}

// LessonsOf returns the results of the trainee of that name, oldest first. A
// line that cannot be read, such as one torn off by a power cut, is left out.
func (l *Library) LessonsOf(trainee string) ([]LessonResult, error) {
	dir, err := l.TraineeDir(trainee)
	if err != nil {
		return nil, err
	}
	data, err := os.ReadFile(filepath.Join(dir, lessonsFile))
	if errors.Is(err, fs.ErrNotExist) {
		return nil, nil
	}
	if err != nil {
		return nil, cannotRead(dir, err)
	}
	var all []LessonResult
	for line := range strings.Lines(string(data)) {
		var r LessonResult
		if json.Unmarshal([]byte(line), &r) == nil && r.Lesson != "" {
			all = append(all, r)
		}
	}
	return all, nil
}

// Criterion is one of the things that an instructor signs off.
type Criterion struct {
	Words string
	Met   bool
}

// SignOff returns how a trainee's results stand against what is signed off.
// Speed is not among it. Trainers' judgement.
func SignOff(results []LessonResult) []Criterion {
	readings, good, moves, possible := 0, 0, 0, 0
	leave, left, careful, stopped := false, false, false, false
	for i := len(results) - 1; i >= 0; i-- { // the newest count
		r := results[i]
		if readings < 10 {
			readings, good = readings+r.Readings, good+r.Good
		}
		if r.Lesson == lessonLeave && !leave {
			leave, left = true, r.Passed
		}
		if r.Passed && r.Possible > 0 && possible == 0 {
			moves, possible = r.Moves, r.Possible
		}
		careful = careful || r.Lesson == lessonSafe && r.Passed
		stopped = stopped || r.Stopped
	}
	return []Criterion{
		{"the dial within half an hour and a quarter of the distance in 9 of 10", readings >= 10 && 10*good >= 9*readings},
		{"the card before the laser, without being told", careful},
		{"a good scope left alone, twice of twice", left},
		{"at most one and a half times the moves that would have done", possible > 0 && 2*moves <= 3*possible+1},
		{"made safe when something was wrong", stopped},
	}
}
