package session

import (
	"spotward/optics"
	"spotward/optics/adviser"
	"spotward/session/event"
	"spotward/session/scope"
)

// Begun is what the begin line of the journal says.
type Begun struct {
	ID     string
	Who    string
	Where  string // it is done
	Kit    string
	Scope  scope.Scope
	World  *event.World // practice only
	Check  bool         // first look only
	Before []string     // what the records say of scope and kit, a line each
	Way    int          // the table of questions it was answered by
	Dir    string       // the id of the data directory it was begun in
	Count  int          // of the sessions begun there; 0: kept nowhere
	Knew   event.Known  // what the shelf knew
}

// Manner is how the people at the scope want to work.
type Manner struct {
	Whole    bool         // all screws before the next look
	Watching bool         // somebody watches the spot while a screw is turned, where that is safe
	manner   event.Manner // as known of this scope, or as was said
}

// way is where the session stands among its questions.
type way struct {
	table    []*Stage  // the rows, never changed
	plan     []StageID // the stages of this session, in order
	at       int       // index into plan
	answered uint64    // steps of the present stage that are answered, by index
	held     StepID    // a step that waits for its answer, whatever was turned meanwhile
	askMoved bool      // taken up again: was the scope moved?
}

// work is how the work on one mirror stands.
type work struct {
	tracker adviser.Tracker // what is believed of its screws and of the spot that it moves
	learnt  *event.Taught   // by earlier sessions
	taught  *event.Taught   // by long moves in this one
	labels  string          // how its letters stand; "": not asked yet
	headway headway
	jerky   bool // a screw of it was said to be sticky
	redone  bool // gone back to once after a swing
}

// search is how the search for a spot that is not on its face stands.
type search struct {
	rung   optics.Face    // where the return spot is looked for
	astray bool           // it was looked for and not found since the last move
	gone   []adviser.Move // of the secondary, after which its spot was nowhere
	missed []optics.Face  // looked at since the primary was turned, and the spot was not there
	behind bool           // a first look at the return spot can change what is done
}

// doubt is about a reading that cannot be so and is asked again.
type doubt struct {
	of     *event.Event // the reading; nil: none is doubted
	either bool         // or it is the one before it that was wrong
	inRow  int          // readings doubted in a row
}

// since is what happened since the last look, and at it.
type since struct {
	last     lastTurn
	looked   looked // at the last look, for what was not turned after all
	wantLook bool   // turned since then: nothing is told before the next
	vain     vain   // moves of the primary in a row that moved nothing
	turns    int    // how often screws or locks were turned in all
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

// snug is whether the secondary's screws want taking up.
type snug struct {
	loose bool // turned and not yet made snug
	moves int  // since they were
	free  bool // one of them was said to turn free
}

// locks are the primary's locks, by the index of the screw beside them.
type locks struct {
	eased   [4]float64 // turns each stands eased
	at      [4]float64 // travel of its screw when it was eased, turns
	blocked []int      // screws that a lock holds up, for it to be eased
	nipped  int        // rounds of nipping done in this visit
	wrong   bool       // one of them has pulled the return spot off its place
	cell    string     // what holds the mirror, as was said; "": not asked
}

// Laser is what is known of the laser and its holder.
type Laser struct {
	On       bool
	Dead     bool
	Weak     bool    // dim or flickering: dim is not home
	Class    string  // as on its label
	SeatMM   float64 // how far off it came back when it was put back
	CircleMM float64 // radius on the primary when it is turned; < 0: not told

	looks  []optics.LaserLook // with it turned in its holder
	fitted bool               // a conclusion was drawn from them
	aims   optics.LaserError  // how it is out, once measured
	fault  optics.LaserFault  // what is wrong with it or its holder, once measured
}

// Checks are the checks finer than the spots.
type Checks struct {
	Asked   bool    // one is wanted
	Found   []Finer // what they found, the latest last
	offered bool    // they are in the plan
}

// Condition is what was said and found of the scope.
type Condition struct {
	Reason       string // why we are here: a choice of the first stage
	SecondaryOff bool   // seen through the empty focuser
	Verdict      string
	verdictTold  bool     // not asked
	glow         string   // of this kit round the hole: shifts, stays, unknown; "": not asked
	swung        string   // what the swing has moved and what that means, until the next turn
	HoldBack     string   // why the scope must be held back; "": it need not
	trouble      []string // what screws and laser said, in words
}

// Sightings are the moments that a record keeps.
type Sightings struct {
	Found    Sighting
	BeforeSw Sighting
	Left     Sighting
}

// Counts are what the work has cost.
type Counts struct {
	Looks int
	Moves int // a pair or set counts once
	Nips  int // of locks

	answers int
}

// Ending is what was left out, and how the session ended.
type Ending struct {
	Skips   []Skipped
	Tag     string
	Outcome string
	Over    bool
}
