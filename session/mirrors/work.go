package mirrors

import (
	"spotward/optics"
	"spotward/optics/adviser"
	"spotward/session/event"
	"spotward/session/scope"
)

// Work is how the work on both mirrors stands, at one moment: what was turned and
// read, what is believed of the screws and of the spots. It is a value.
type Work struct {
	Manner
	Phase Phase
	Scope scope.Scope
	Knew  event.Known      // what the shelf knew
	Tel   optics.Telescope // as it is known by now

	Secondary, Primary Screws
	P, T               Spot // on the primary, which the secondary moves; the return spot, which the primary moves
	Red                Spot // on the card over the open end, until a screw is turned
	Search             Search
	Doubt              Doubt
	Since              Since
	Due                *event.Told // moves that were told and not made yet
	Snug               Snug
	Locks              Locks
	Hole               Hole

	Laser Laser
	Sightings
	Counts
	Glow     string   // of this kit round the hole: shifts, stays, unknown; "": not asked
	Troubles []string // what screws and laser said, in words

	reckoned *reckoned
}

// New returns the work as it begins: of a scope of which that is known, with screws
// that earlier sessions taught so.
func New(sc scope.Scope, knew event.Known, learnt map[optics.Mirror]*event.Taught) Work {
	s := Work{Scope: sc, Knew: knew, Tel: sc.Telescope(), reckoned: &reckoned{}}
	s.Laser.CircleMM = -1
	s.Locks.Cell = knew.Locks
	s.Search.Rung = optics.FaceTarget
	for _, m := range []optics.Mirror{optics.Secondary, optics.Primary} {
		*s.Of(m) = Screws{Tracker: adviser.NewTracker(s.Tel, m, learnt[m]), Learnt: learnt[m]}
		if how := knew.Labels[m]; how == LabelsAsAsked || how == LabelsReversed { // once a scope
			s.Label(m, event.Event{Choice: how})
		}
	}
	return s
}

// Phase is all that the work must know of the question that stands.
type Phase struct {
	Homing    bool // the return spot is brought home: what the locks will do to it comes on top
	Bitten    bool // the locks had bitten already
	LocksLeft bool // to ease them was left out
	Measures  bool // the laser is measured before the end
}

// Counts are what the work has cost.
type Counts struct {
	Looks int
	Moves int // a pair or set counts once
	Nips  int // of locks
}

// Manner is how the people at the scope want to work.
type Manner struct {
	Whole    bool         // all screws before the next look
	Watching bool         // somebody watches the spot while a screw is turned, where that is safe
	Reckons  bool         // a return spot that was not read where it was found is reckoned
	Stops    event.Manner // what is known of it for the next evening; "": it is not kept
}

// Kept returns what is known of it for the next evening, "" where nothing is.
func (n Manner) Kept() event.Manner {
	if n.Stops == event.AskManner {
		return ""
	}
	return n.Stops
}

// StopBy takes how they know when to stop turning.
func (n *Manner) StopBy(m event.Manner) {
	n.Watching = m == event.ByWatching
	if n.Stops != "" {
		n.Stops = m
	}
}

// Screws is how the work on one mirror stands.
type Screws struct {
	Tracker adviser.Tracker // what is believed of its screws and of the spot that it moves
	Learnt  *event.Taught   // by earlier sessions
	taught  *event.Taught   // by long moves in this one
	labels  string          // how its letters stand; "": not asked yet
	Headway Headway
	jerky   bool // a screw of it was said to be sticky
	Redone  bool // gone back to once after a swing
}

// Search is how the search for a spot that is not on its face stands.
type Search struct {
	Rung    optics.Face    // where the return spot is looked for
	Astray  bool           // it was looked for and not found since the last move
	gone    []adviser.Move // of the mirror whose spot was nowhere after them
	fetched bool           // they were taken back since
	Missed  []optics.Face  // looked at since the primary was turned, and the spot was not there
	Rounds  int            // how often in a row it was on none of them
	Behind  bool           // a first look at the return spot can change what is done
}

// Doubt is about a reading that cannot be so and is asked again.
type Doubt struct {
	Of     *event.Event // the reading; nil: none is doubted
	Either bool         // or it is the one before it that was wrong
	inRow  int          // readings doubted in a row
}

// Since is what happened since the last look, and at it.
type Since struct {
	last     lastTurn
	looked   looked        // at the last look, for what was not turned after all
	WantLook bool          // turned since then: nothing is told before the next
	vain     vain          // moves of the primary in a row that moved nothing
	read     optics.Belief // the return spot as it was read last
	idle     [3]idle       // what each of the primary's screws was turned since it moved it
	Turns    int           // how often screws or locks were turned in all
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

// Snug is whether the secondary's screws want taking up.
type Snug struct {
	Loose bool // turned and not yet made snug
	Moves int  // since they were
	Free  bool // one of them was said to turn free
}

// Tracker returns the belief about mirror m.
func (s Work) Tracker(m optics.Mirror) adviser.Tracker { return s.Of(m).Tracker }

func (s *Work) SetTracker(m optics.Mirror, k adviser.Tracker) { s.Of(m).Tracker = k }

// Of returns the work on mirror m.
func (s *Work) Of(m optics.Mirror) *Screws {
	if m == optics.Primary {
		return &s.Primary
	}
	return &s.Secondary
}

func (s *Work) setCell(m optics.Mirror, cell optics.Cell) {
	if m == optics.Primary {
		s.Tel.Primary = cell
	} else {
		s.Tel.Secondary = cell
	}
}

// OnPrimary returns what is known of the spot on the primary.
func (s Work) OnPrimary() Spot { return s.P }

// OnTarget returns what is known of the return spot on the target face.
func (s Work) OnTarget() Spot { return s.T }

// Knocks reports whether a knuckle on mirror m's cell comes before a look: a
// screw of it moves by jerks.
func (s Work) Knocks(m optics.Mirror) bool { return s.Of(m).jerky }
