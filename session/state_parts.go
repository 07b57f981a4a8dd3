package session

import (
	"spotward/session/event"
)

// Begun is what the begin line of the journal says.
type Begun struct {
	ID     string
	Who    string
	Where  string // it is done
	Kit    string
	World  *event.World // practice only
	Check  bool         // first look only
	Before []string     // what the records say of scope and kit, a line each
	Way    int          // the table of questions it was answered by
	Dir    string       // the id of the data directory it was begun in
	Count  int          // of the sessions begun there; 0: kept nowhere
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

// Checks are the checks finer than the spots.
type Checks struct {
	Asked   bool    // one is wanted
	Found   []Finer // what they found, the latest last
	offered bool    // they are in the plan
}

// Condition is what was said and found of the scope.
type Condition struct {
	Reason        string // why we are here: a choice of the first stage
	SecondaryOff  bool   // seen through the empty focuser
	Verdict       string
	verdictTold   bool   // not asked
	stoppedItself bool   // with no end in sight
	HoldBack      string // why the scope must be held back; "": it need not
}

// Ending is what was left out, and how the session ended.
type Ending struct {
	Skips   []Skipped
	Tag     string
	Outcome string
	Over    bool
}
