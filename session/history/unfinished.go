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
	Began time.Time    // UTC
	Last  time.Time    // when something last happened
}
