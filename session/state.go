package session

import (
	"slices"

	"spotward/optics"
	"spotward/optics/adviser"
	"spotward/session/event"
)

// Spot is what is known of one spot: where it was last read and how.
type Spot struct {
	Known bool // read since it could last have moved unseen
	Saw   event.Sight
	At    optics.Belief // the reading, in the tube's frame of its face
	Gone  bool          // looked for and not on its face
	look  int           // the number of the look that read it
	Glow  event.Glow    // in the hole

	Picture *event.Picture // it was measured on; nil: it was read by eye
}

// Sighting is both spots and the axis error at one moment: found, left,
// before and after the swing.
type Sighting struct {
	P, T     Spot
	ErrKnown bool
	ErrMM    float64 // axis error in the focal plane: as likely as not within it
	ErrMaxMM float64 // the true one is within it in 95 of 100
	Claim    optics.Claim
	Centred  bool // the spot on the primary was at its goal
	Home     bool // and the return spot at its own
	turned   int  // how often screws had been turned by then
}

// Skipped is a stage that was left out.
type Skipped struct {
	Stage StageID `json:"stage"`
	Why   string  `json:"why"`
}

// State is one alignment at one moment. It is a value: Apply returns a new
// one and never changes what the old one shows.
type State struct {
	Begun
	Manner
	Tel optics.Telescope // as it is known by now
	way way

	secondary, primary work
	p, t               Spot // on the primary, which the secondary moves; the return spot, which the primary moves
	red                Spot // on the card over the open end, until a screw is turned
	search             search
	doubt              doubt
	since              since
	told               *event.Told // moves that were told and not made yet
	untold             bool        // as it is shown only: moves are due and left to the person
	snug               snug
	locks              locks

	Laser  Laser
	Checks Checks
	finer  finerLook
	swing  swing
	hole   hole
	Condition
	Sightings
	Counts
	Ending

	reckoned *reckoned
	history  *node
	redo     *State
	asked    *Ask                // what is asked; nil while an event is being taken
	say      func(string) string // puts what is said into other words; nil: as it stands
}

// Stage returns the row of the stage the session is in.
func (s State) Stage() *Stage { return s.Row(s.way.plan[s.way.at]) }

// Row returns the row of the stage with that id, as this session has it, or
// nil.
func (s State) Row(id StageID) *Stage { return s.wordStage(rowOf(s.way.table, id)) }

// Tracker returns the belief about mirror m.
func (s State) Tracker(m optics.Mirror) adviser.Tracker { return s.of(m).tracker }

func (s *State) setTracker(m optics.Mirror, k adviser.Tracker) { s.of(m).tracker = k }

// of returns the work on mirror m.
func (s *State) of(m optics.Mirror) *work {
	if m == optics.Primary {
		return &s.primary
	}
	return &s.secondary
}

func (s *State) setCell(m optics.Mirror, cell optics.Cell) {
	if m == optics.Primary {
		s.Tel.Primary = cell
	} else {
		s.Tel.Secondary = cell
	}
}

// OnPrimary returns what is known of the spot on the primary.
func (s State) OnPrimary() Spot { return s.p }

// OnTarget returns what is known of the return spot on the target face.
func (s State) OnTarget() Spot { return s.t }

// Told returns the moves that were told and not yet made, or nil.
func (s State) Told() *event.Told { return s.wordTold(s.told) }

// WithoutTold returns the state as it looks to somebody who is not told what to
// turn. What a question itself asks to be turned is told all the same.
func (s State) WithoutTold() State {
	screws := s.told != nil && slices.ContainsFunc(s.told.Moves, func(m event.ToldMove) bool { return m.Screw != "" })
	if screws && s.Ask().Want == WantReading {
		s.told, s.untold = nil, true
		s.settled()
	}
	return s
}

// Trouble returns what the screws have said, in words, oldest first.
func (s State) Trouble() []string { return s.wordAll(s.trouble) }

// Knocks reports whether a knuckle on mirror m's cell comes before a look: a
// screw of it moves by jerks.
func (s State) Knocks(m optics.Mirror) bool { return s.of(m).jerky }

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
