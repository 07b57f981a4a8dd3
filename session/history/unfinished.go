package history

import (
	"time"

	"spotward/session/event"
)

// Unfinished is a session that can be taken up again.
type Unfinished struct {
	ID    string
	Scope string
	Who   string
	World *event.World // practice only
	Way   int          // the table of questions it was answered by
	Dir   string       // the id of the data directory it was begun in
	Count int          // of the sessions begun there
	Began time.Time    // UTC
	Last  time.Time    // when something last happened
}
