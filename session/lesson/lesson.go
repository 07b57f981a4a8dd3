package lesson

import (
	"fmt"
	"math"
	"math/rand/v2"
	"strings"

	"spotward/optics"
	"spotward/session"
	"spotward/session/event"
	"spotward/session/mirrors"
	"spotward/session/scope"
	"spotward/session/words"
)

// Lesson is a short exercise at the practice telescope: five minutes at most.
type Lesson struct {
	ID    string
	Title string
	Aim   string // what one can do afterwards
	Done  string // what counts as done
	Clean bool   // nothing may be done that would have done harm
	Tasks []Task
	Seed  uint64                           // that it was drawn from; see Drawn
	vary  func(tasks []Task, r *rand.Rand) // what else is otherwise each time; nil: nothing
}

// TaskKind says what kind of thing a task asks for.
type TaskKind string

// The kinds. A question has answers to choose from. Of a reading the place is
// wanted, of a way only where the spot went as a screw was turned. A deed is
// done at the telescope, with nobody saying what comes next. Work is a session,
// from a stage until something is reached.
const (
	TaskQuestion TaskKind = "question"
	TaskReading  TaskKind = "reading"
	TaskWay      TaskKind = "way"
	TaskDeed     TaskKind = "deed"
	TaskWork     TaskKind = "work"
	TaskShow     TaskKind = "show" // nothing is asked: something is shown
)

// Task is one thing to do in a lesson.
type Task struct {
	Kind  TaskKind
	Say   string
	Why   string       // said when it is answered, rightly or not
	World *event.World // another telescope from here on; nil: the one before
	Seeds []uint64     // of which that telescope may be; none: the one it says
	Group int          // tasks side by side of one group come in any order; 0: in this one
	// FocuserAt is where that telescope's focuser is seen from the sky end.
	FocuserAt  scope.Clock
	ApertureMM float64     // of that telescope; 0: as it always is
	Face       optics.Face // what is looked at

	Picture Picture        // of the whole telescope, beside what is asked
	Parts   []Part         // in it, in the order of their numbers
	Options []words.Option // of a question
	Right   string
	Wrong   map[string]string // why an answer is not the right one, by its id
	Tests   []string          // of a question: what is done at the telescope before an answer counts

	Ends string // of a deed: what is done last

	Turn optics.Turn // turned before the trainee comes: of a way, and of work

	From    session.StageID          // of work: where it begins
	Verdict string                   // and with which verdict it came there
	Carried bool                     // the tube was swung before
	Told    bool                     // the spot on the primary was said to be in the ring, wherever it is
	Looks   int                      // it is over after so many; 0: however many
	Until   func(session.State) bool // it is over
	Met     func(session.State) bool // and what it was for is reached
	Seen    []optics.Face            // most of what was read was to be seen, and of these faces what was read last; nil: whatever was
	Clumsy  bool                     // the hands turn everything the other way
	Unnamed bool                     // what the hand feels is told, and not what it is called
	Alone   bool                     // no move is told
	Deeds   []string                 // what is done at the telescope before it is called safe
	Counted bool                     // its moves are counted against what would have done
	Against bool                     // its moves are counted against those that the program tells
	Answer  bool                     // at its end it is said what the session answers
	Truth   bool                     // at its end it is said how the telescope truly stands
}

// ByName returns the lesson of that number in the ladder or of that id.
func ByName(name string) (Lesson, error) {
	var ids []string
	for i, l := range All() {
		if strings.EqualFold(name, l.ID) || name == fmt.Sprint(i) {
			return l, nil
		}
		ids = append(ids, l.ID)
	}
	return Lesson{}, fmt.Errorf("no lesson %s: a number from 0 to %d, or one of %s", words.Show(name), len(ids)-1, strings.Join(ids, ", "))
}

// Bites returns in how many moves a screw or pair of mirror m is turned so far,
// with a look after each; first: before any other of that mirror was.
func Bites(m optics.Mirror, turns float64, first bool) int {
	left, n := math.Abs(turns), 0
	if first && left > mirrors.FinestTurns/2 {
		left, n = left-mirrors.LongestBite(m, true), 1
	}
	if left > mirrors.FinestTurns/2 {
		n++ // what is known is turned in one move, in goes
	}
	return n
}

// Of returns that telescope as the task has it.
func (t Task) Of(s scope.Scope) scope.Scope {
	if t.FocuserAt != "" {
		s.FocuserAt = t.FocuserAt
	}
	if t.ApertureMM != 0 {
		s.Aperture = scope.MM(t.ApertureMM)
	}
	return s
}
