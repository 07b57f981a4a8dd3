package event

import (
	"encoding/json"

	"spotward/optics"
	"spotward/optics/adviser"
	"spotward/session/scope"
)

// Kind names what happened.
type Kind string

// The kinds of event. What a reader of a journal does not know it keeps and
// skips.
const (
	KindBegin   Kind = "begin"   // the scope as used, who, and in practice the world
	KindConfirm Kind = "confirm" // what was asked is done
	KindChoice  Kind = "choice"  // one of the options
	KindReading Kind = "reading" // where a spot is seen, or that it is not
	KindScrew   Kind = "screw"   // what a screw said
	KindLaser   Kind = "laser"   // the laser died; or what Is says of it
	KindTurned  Kind = "turned"  // screws a hand has turned
	KindAdvised Kind = "advised" // what the person was told
	KindSkip    Kind = "skip"    // a stage left out, with the reason
	KindBack    Kind = "back"
	KindUndo    Kind = "undo"
	KindRedo    Kind = "redo"
	KindStop    Kind = "stop" // make safe
	KindQuit    Kind = "quit"
	KindResume  Kind = "resume"
	KindManner  Kind = "manner"  // how the people at the scope work
	KindFiner   Kind = "finer"   // a finer check than the spots is wanted
	KindUnsure  Kind = "unsure"  // nobody knows whether what was told was done
	KindWent    Kind = "went"    // which way the spot set off at a touch
	KindFocuser Kind = "focuser" // where the focuser is really seen
	KindHand    Kind = "hand"    // practice: the true turn behind a told or typed one
	KindRecord  Kind = "record"  // the session summed up: the last line of one that is over
	KindGoOn    Kind = "go_on"   // without a record, after something could not be kept; never in a journal
)

// Sight says what kind of reading it was.
type Sight string

// The sights. A place has coordinates; the others stand for themselves.
const (
	SawPlace    Sight = "place"
	SawWithin   Sight = "within"    // within what counts as there
	SawInRing   Sight = "in_ring"   // somewhere inside the ring
	SawHome     Sight = "home"      // seen going down the hole
	SawGone     Sight = "gone"      // not on this face
	SawCantSee  Sight = "cant_see"  // too bright, too dim
	SawComputed Sight = "computed"  // not read: reckoned from a later look; in records alone
	SawOffGlass Sight = "off_glass" // beside the mirror, in the direction of the place
)

// Glow is what shows round the hole as the spot goes down it.
type Glow string

// The glows. GlowSide is brighter toward the reading's place; "" is none, or it
// cannot be told.
const (
	GlowEven Glow = "even"
	GlowSide Glow = "side"
)

// What a kit's glow does at a touch: only one that shifts says where the spot is.
const (
	GlowShifts  = "shifts"
	GlowStays   = "stays"
	GlowUnknown = "unknown"
)

// Says is what a screw said.
type Says string

// What screws say, or what really happened with one.
const (
	SaysStuck    Says = "stuck"
	SaysFree     Says = "free"
	SaysEnd      Says = "end"
	SaysSlipped  Says = "slipped"
	SaysSticky   Says = "sticky"
	SaysStripped Says = "stripped"
	SaysOtherWay Says = "other_way"
	SaysNotDone  Says = "not_done"
	SaysUnturned Says = "not_turned" // before the last look, after all

	SaysLockStuck Says = "lock_stuck" // the lock beside it does not ease
)

// What can be said of the laser beside that it died.
const (
	SaysWeak  Says = "weak"  // dim, or it flickers
	SaysFresh Says = "fresh" // it has a fresh cell
)

// Manner is how the people at a scope know when to stop turning.
type Manner string

// ByAmount: by the amount told. ByWatching: the spot is watched while the screw
// turns. AskManner: it is not known yet whether it can be. "" counts as ByAmount.
const (
	ByAmount   Manner = "amount"
	ByWatching Manner = "watching"
	AskManner  Manner = "ask"
)

// MannerOf returns how they stop where the spot is watched, and where it is not.
func MannerOf(watching bool) Manner {
	if watching {
		return ByWatching
	}
	return ByAmount
}

// ToldStop is a stop cue in the frame of the reading that follows.
type ToldStop struct {
	Right float64         `json:"right"`
	Up    float64         `json:"up"`
	As    optics.StopKind `json:"as"`
}

// Way is a direction of length 1 in the frame of the reading that follows.
type Way struct {
	Right float64 `json:"right"`
	Up    float64 `json:"up"`
}

// ToldMove is a turn with where to stop.
type ToldMove struct {
	optics.Turn
	Stop   *ToldStop `json:"stop,omitempty"`
	Toward *Way      `json:"toward,omitempty"` // the way the spot sets off
	Touch  bool      `json:"touch,omitempty"`  // which is a guess: a touch first
	Goes   int       `json:"goes,omitempty"`   // Turns in so many equal goes; 0: one
}

// Told is what the person was asked to turn.
type Told struct {
	Group    adviser.Group `json:"group"`
	Moves    []ToldMove    `json:"moves"`           // none: to look for the return spot on the face
	Brief    string        `json:"brief,omitempty"` // Ask in at most 56 characters
	Then     []ToldMove    `json:"then,omitempty"`
	Learning bool          `json:"learning"`
	Trust    float64       `json:"trust"`
	Why      string        `json:"why"`
	Ask      string        `json:"ask,omitempty"`   // a limit is near: the question to answer first
	Watch    bool          `json:"watch,omitempty"` // the spot can be watched: the cue leads, the amount is a guide
	Snug     bool          `json:"snug,omitempty"`  // then the screws that hang free are taken up
}

// Turns returns the told moves without where to stop.
func (t Told) Turns() []optics.Turn {
	turns := make([]optics.Turn, len(t.Moves))
	for i, m := range t.Moves {
		turns[i] = m.Turn
	}
	return turns
}

// Of returns how many of the told moves turn an adjusting screw.
func (t Told) Of() int {
	n := 0
	for _, m := range t.Moves {
		if m.Screw != "" {
			n++
		}
	}
	return n
}

// World seeds a practice telescope.
type World struct {
	Seed  uint64 `json:"seed"`
	Level string `json:"level"`
}

// Event is one thing that happened. Kind says which of the fields count; the
// rest are zero. Lengths are mm across the beam in the frame of optics.Seen.
type Event struct {
	Kind Kind `json:"-"`

	// begin and resume
	ID      string                    `json:"id,omitempty"`
	Scope   *scope.Scope              `json:"scope,omitempty"`
	Kit     string                    `json:"kit,omitempty"`
	Who     string                    `json:"who,omitempty"`
	Where   string                    `json:"where,omitempty"` // it is done
	World   *World                    `json:"world,omitempty"`
	Program string                    `json:"program,omitempty"`
	Learnt  map[optics.Mirror]*Taught `json:"learnt,omitempty"` // by earlier sessions
	Check   bool                      `json:"check,omitempty"`  // first look only
	Before  []string                  `json:"before,omitempty"` // what the records say of scope and kit, to be told
	Manner  Manner                    `json:"manner,omitempty"` // as known of this scope
	Way     int                       `json:"way,omitempty"`    // the number of the table of questions
	Dir     string                    `json:"dir,omitempty"`    // the data directory's own id
	Count   int                       `json:"count,omitempty"`  // of the sessions begun there, from 1
	Knew    *Known                    `json:"knew,omitempty"`   // what the shelf knew

	// whatever answers a question: which one
	Stage string `json:"stage,omitempty"`
	Step  string `json:"step,omitempty"`

	// choice, skip
	Choice  string                 `json:"choice,omitempty"`
	Why     string                 `json:"why,omitempty"`
	WidthMM float64                `json:"width_mm,omitempty"` // of the circle the spot made, where it was told
	Letters map[string]scope.Clock `json:"letters,omitempty"`  // where letters stand, facing the heads, 12 straight up

	// reading
	Face  optics.Face `json:"face,omitempty"`
	Saw   Sight       `json:"saw,omitempty"`
	Right float64     `json:"right,omitempty"`
	Up    float64     `json:"up,omitempty"`
	Cov   *[3]float64 `json:"cov,omitempty"`  // right², right·up, up², mm²
	Glow  Glow        `json:"glow,omitempty"` // of a spot that is home
	All   bool        `json:"all,omitempty"`  // gone: on none of the faces that were asked
	Cued  bool        `json:"cued,omitempty"` // it stands where the cue said
	Text  string      `json:"text,omitempty"` // as typed

	Picture *Picture `json:"picture,omitempty"` // it was measured on; nil: it was read by eye

	// screw, laser
	Mirror optics.Mirror `json:"mirror,omitempty"`
	Screw  string        `json:"screw,omitempty"`
	Is     Says          `json:"is,omitempty"`

	// turned, hand
	Turned  []optics.Turn `json:"turned,omitempty"`
	Watched bool          `json:"watched,omitempty"` // turned until the cue, not by amount; of a reading, too
	Snug    bool          `json:"snug,omitempty"`    // and the screws that hung free were taken up after that
	Implied bool          `json:"implied,omitempty"` // not said: the reading that follows says it

	// manner: all screws before the next look; somebody watches while one turns
	Whole    *bool `json:"whole,omitempty"`
	Watching *bool `json:"watching,omitempty"`

	// focuser: its clock position from where the question has one stand, hours
	Hour float64 `json:"hour,omitempty"`

	// advised
	Told *Told `json:"told,omitempty"`

	// record
	Record json.RawMessage `json:"record,omitempty"`
}

// Taught is what earlier sessions have learnt of one mirror's screws.
type Taught = adviser.Learnt

// MaxTurns is more than any screw of a mirror cell turns between two looks.
const MaxTurns = 20
