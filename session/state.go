package session

import (
	"spotward/optics"
	"spotward/optics/adviser"
	"spotward/session/event"
	"spotward/session/scope"
)

// Spot is what is known of one spot: where it was last read and how.
type Spot struct {
	Known bool // read since it could last have moved unseen
	Saw   event.Sight
	At    optics.Belief // the reading, in the tube's frame of its face
	Gone  bool          // looked for and not on its face
}

// Sighting is both spots and the axis error at one moment: found, left,
// before and after the swing.
type Sighting struct {
	P, T     Spot
	ErrKnown bool
	ErrMM    float64 // axis error in the focal plane
	ErrMaxMM float64 // the true one is within it in 95 of 100
	Centred  bool    // the spot on the primary was at its goal
	Home     bool    // and the return spot at its own
}

// Skipped is a stage that was left out.
type Skipped struct {
	Stage StageID `json:"stage"`
	Why   string  `json:"why"`
}

// State is one alignment at one moment. It is a value: Apply returns a new
// one and never changes what the old one shows.
type State struct {
	ID       string
	Who      string
	Where    string // it is done
	Kit      string
	Scope    scope.Scope
	Tel      optics.Telescope
	World    *event.World // practice only
	Check    bool         // first look only
	Whole    bool         // all screws before the next look
	Watching bool         // somebody watches the spot while a screw is turned

	table    []*Stage  // the rows, never changed
	plan     []StageID // the stages of this session, in order
	at       int       // index into plan
	answered uint64    // steps of the present stage that are answered, by index
	askMoved bool      // taken up again: was the scope moved?

	secondary adviser.Tracker
	primary   adviser.Tracker
	p, T      Spot
	red       Spot        // on the card over the open end, until a screw is turned
	rung      optics.Face // where the return spot is looked for
	told      *event.Told
	untold    bool // as it is shown only: moves are due and left to the person
	last      lastTurn
	gone      []adviser.Move // of the secondary, after which its spot was nowhere
	looked    looked         // at the last look, for what was not turned after all
	still     int            // moves in a row that moved nothing
	blocked   []int          // the primary's screws that a lock holds up, for it to be eased
	held      StepID         // a step that waits for its answer, whatever was turned meanwhile
	astray    bool           // the return spot was looked for and not found since the last move
	wantLook  bool           // turned since the last look: nothing is told before the next
	doubt     *event.Event   // a reading that cannot be so, to be read again
	eitherOff bool           // or it is the one before it that was wrong
	doubts    int            // readings doubted in a row

	FinerAsked   bool    // a check finer than the spots is wanted
	Finer        []Finer // what such checks found, the latest last
	finer        finerLook
	finerOffered bool

	SecondaryOff bool   // seen through the empty focuser
	HoldBack     string // why the scope must be held back; "": it need not
	labels       map[optics.Mirror]string
	learnt       map[optics.Mirror]*event.Taught
	fitLooks     []optics.LaserLook
	fitted       bool
	aims         optics.LaserError // how the laser is out, once measured
	fault        optics.LaserFault // what is wrong with laser or holder, once measured

	Reason    string  // why we are here: a choice of the first stage
	Class     string  // the laser's, as on its label
	SeatMM    float64 // how far off the laser came back when it was put back
	CircleMM  float64 // radius on the primary when the laser is turned; < 0: not told
	Verdict   string
	LaserOn   bool
	LaserDead bool
	LaserWeak bool // dim or flickering: dim is not home
	Found     Sighting
	BeforeSw  Sighting
	Left      Sighting

	Looks    int
	Moves    int // a pair or set counts once
	Nips     int
	eased    [4]float64             // turns each lock stands eased
	lockAt   [4]float64             // travel of the screw beside each lock when that was eased
	nipped   int                    // rounds of nipping done in this visit
	redone   map[optics.Mirror]bool // gone back to once after a swing
	loose    bool                   // the secondary's screws were turned and not yet made snug
	unsnug   int                    // moves of the secondary since they were
	isFree   bool                   // one of them was said to turn free
	atP, atT headway                // how the work on the secondary, and on the primary, gets on
	jerky    map[optics.Mirror]bool // a screw of that mirror was said to be sticky
	trouble  []string               // what the screws said, in words

	Skips   []Skipped
	Tag     string
	Outcome string
	Over    bool

	history *node
	redo    *State
	say     func(string) string // puts what is said into other words; nil: as it stands
}

// lastTurn is what was turned since the last look, and what was believed before
// it.
type lastTurn struct {
	mirror optics.Mirror
	from   adviser.Tracker
	moves  []adviser.Move
}

// looked is a look after screws were turned: what was turned before it, and what
// was read.
type looked struct {
	lastTurn
	at optics.Belief
}

// node is one accepted event and the state before it.
type node struct {
	event  event.Event
	before *State
}

// Stage returns the row of the stage the session is in.
func (s State) Stage() *Stage { return s.Row(s.plan[s.at]) }

// Row returns the row of the stage with that id, as this session has it, or
// nil.
func (s State) Row(id StageID) *Stage { return s.wordStage(rowOf(s.table, id)) }

// Tracker returns the belief about mirror m.
func (s State) Tracker(m optics.Mirror) adviser.Tracker {
	if m == optics.Primary {
		return s.primary
	}
	return s.secondary
}

func (s *State) setTracker(m optics.Mirror, k adviser.Tracker) {
	if m == optics.Primary {
		s.primary = k
	} else {
		s.secondary = k
	}
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
func (s State) OnTarget() Spot { return s.T }

// Told returns the moves that were told and not yet made, or nil.
func (s State) Told() *event.Told { return s.wordTold(s.told) }

// WithoutTold returns the state as it looks to somebody who is not told what to
// turn. What a question itself asks to be turned is told all the same.
func (s State) WithoutTold() State {
	if s.told != nil && s.Ask().Want == WantReading {
		s.told, s.untold = nil, true
	}
	return s
}

// Doubted reports whether the last reading is asked again.
func (s State) Doubted() bool { return s.doubt != nil }

// Trouble returns what the screws have said, in words, oldest first.
func (s State) Trouble() []string { return s.wordAll(s.trouble) }

// Knocks reports whether a knuckle on mirror m's cell comes before a look: a
// screw of it moves by jerks.
func (s State) Knocks(m optics.Mirror) bool { return s.jerky[m] }

// Plan returns the stages of this session in order and the index of the
// present one.
func (s State) Plan() ([]StageID, int) { return s.plan, s.at }

// Events returns the accepted events in force, oldest first: what was undone
// is not among them.
func (s State) Events() []event.Event {
	var out []event.Event
	for n := s.history; n != nil; n = n.before.history {
		out = append(out, n.event)
	}
	for i, j := 0, len(out)-1; i < j; i, j = i+1, j-1 {
		out[i], out[j] = out[j], out[i]
	}
	return out
}

// done reports whether the step with that index was answered in this visit.
func (s State) done(step int) bool { return s.answered&(1<<step) != 0 }

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

// AxisError returns how far the primary's axis misses the centre of the field
// and the bound it is within in 95 of 100, mm in the focal plane. It claims
// nothing while either spot has not been seen.
func (s State) AxisError() (errMM, maxMM float64, ok bool) {
	if !s.p.Known || !s.T.Known {
		return 0, 0, false
	}
	p, t := s.p.At, s.T.At
	e := s.Tel.AxisErrorBelief(p, t)
	e.At = s.Tel.AxisErrorWith(s.aims, p.At, t.At)
	return e.At.Len(), e.WithinMM(0.95), true
}

func (s State) sighting() Sighting {
	e, max, ok := s.AxisError()
	return Sighting{P: s.p, T: s.T, ErrKnown: ok, ErrMM: e, ErrMaxMM: max, Centred: s.there(optics.Secondary, s.p, near(s.GoalOnPrimary())), Home: s.there(optics.Primary, s.T, near(s.GoalOnTarget()))}
}
