package session

import (
	"slices"

	"spotward/optics"
	"spotward/session/event"
	"spotward/session/mirrors"
)

// Skipped is a stage that was left out.
type Skipped struct {
	Stage StageID `json:"stage"`
	Why   string  `json:"why"`
}

// State is one alignment at one moment. It is a value: Apply returns a new
// one and never changes what the old one shows.
type State struct {
	Begun
	mirrors.Work
	way    way
	untold bool // as it is shown only: moves are due and left to the person

	Checks Checks
	finer  finerLook
	swing  swing
	Condition
	Ending
	answers int    // how many were given
	SetBack string // why an earlier stage is done again, until the next answer

	history *node
	redo    *State
	// redoLeft is what could be redone when the session was left.
	redoLeft *State
	asked    *Ask                // what is asked; nil while an event is being taken
	say      func(string) string // puts what is said into other words; nil: as it stands
}

// Stage returns the row of the stage the session is in.
func (s State) Stage() *Stage { return s.Row(s.way.plan[s.way.at]) }

// Row returns the row of the stage with that id, as this session has it, or
// nil.
func (s State) Row(id StageID) *Stage { return s.wordStage(rowOf(s.way.table, id)) }

// Told returns the moves that were told and not yet made, or nil.
func (s State) Told() *event.Told { return s.wordTold(s.Due) }

// WithoutTold returns the state as it looks to somebody who is not told what to
// turn. What a question itself asks to be turned is told all the same.
func (s State) WithoutTold() State {
	screws := s.Due != nil && slices.ContainsFunc(s.Due.Moves, func(m event.ToldMove) bool { return m.Screw != "" })
	if screws && s.Ask().Want == WantReading {
		s.Due, s.untold = nil, true
		s.settled()
	}
	return s
}

// Trouble returns what the screws have said, in words, oldest first.
func (s State) Trouble() []string { return s.wordAll(s.Troubles) }

// Plan returns the stages of this session in order and the index of the
// present one.
func (s State) Plan() ([]StageID, int) { return s.way.plan, s.way.at }

// done reports whether the step with that index was answered in this visit.
func (s State) done(step int) bool { return s.way.answered&(1<<step) != 0 }

// works reports whether the verdict sends the session to mirror m.
func (s State) works(m optics.Mirror) bool {
	switch s.Verdict {
	case VerdictBoth:
		return true
	case VerdictSecondary:
		return m == optics.Secondary
	case VerdictPrimary:
		return m == optics.Primary
	}
	return false
}
