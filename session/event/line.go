package event

import (
	"encoding/json"
	"time"
)

// Line is one event of a journal as it stands in the file.
type Line struct {
	V    int
	Seq  int
	T    time.Time // UTC
	Kind string
	Raw  json.RawMessage // the whole line, without its end
}
