package lesson

import (
	"fmt"
	"slices"
	"time"
)

// lessonVersion is that of the results that are written now. Those of before do
// not say how long a stop took nor what was done unasked (1), nor from which seed
// the lesson was drawn (2).
const lessonVersion = 3

// LessonResult is one time that a lesson was taken, for an instructor to read.
type Result struct {
	V        int       `json:"v"`
	T        time.Time `json:"t"`
	Lesson   string    `json:"lesson"`
	Seed     uint64    `json:"seed,omitempty"` // that it was drawn from
	On       []string  `json:"on,omitempty"`   // telescopes, as level and seed
	Passed   bool      `json:"passed"`
	Tasks    int       `json:"tasks"`
	Wrong    int       `json:"wrong"` // answers that were not right the first time
	Readings int       `json:"readings,omitempty"`
	Good     int       `json:"good,omitempty"`      // of the readings, within half an hour and a quarter
	Swapped  int       `json:"swapped,omitempty"`   // left for right
	HoursOff float64   `json:"hours_off,omitempty"` // readings on the average, hours of the dial
	PartOff  float64   `json:"part_off,omitempty"`  // and as part of the distance, too long or too short
	Looks    int       `json:"looks,omitempty"`
	Moves    int       `json:"moves,omitempty"`
	Possible int       `json:"possible,omitempty"` // moves that would have done on that telescope
	Program  int       `json:"program,omitempty"`  // moves that the program told on the same telescopes
	Lit      int       `json:"lit,omitempty"`      // times the laser was switched on without being told
	Carded   int       `json:"carded,omitempty"`   // of them, with the card over the end
	Deeds    []string  `json:"deeds,omitempty"`    // what would have done harm
	Stopped  bool      `json:"stopped,omitempty"`  // made safe
	StopSec  float64   `json:"stop_s,omitempty"`   // from the wish to stop until all was safe, seconds
}

// NewLessonResult returns the result of a lesson that is begun.
func NewResult(l Lesson) Result {
	r := Result{V: lessonVersion, Lesson: l.ID, Seed: l.Seed, Tasks: len(l.Tasks)}
	for _, t := range l.Tasks {
		if t.World == nil {
			continue
		}
		if on := fmt.Sprintf("%s %d", t.World.Level, t.World.Seed); !slices.Contains(r.On, on) {
			r.On = append(r.On, on)
		}
	}
	return r
}

// The exam passes with a quarter more moves than the program tells on the same
// telescopes. Trainers' judgement.
const mostOverProgram = 1.25

// MayMove returns how many moves pass where the program tells so many.
func MayMove(program int) int { return int(mostOverProgram * float64(program)) }
