package command

import (
	"bytes"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"

	"spotward/session/history"
)

// With a clock that was put back the counter says which is the newest, and what
// is taken up is named, with what else there is.
func TestResumeWithAClockPutBack(t *testing.T) {
	at := func(hour int) time.Time { return time.Date(2026, 4, 1, hour, 0, 0, 0, time.UTC) }
	open := []history.Unfinished{
		{ID: "c", Scope: "Heron", Began: at(18), Last: at(19)}, // the clock was put back before it
		{ID: "b", Scope: "Heron", Began: at(21), Last: at(22)},
		{ID: "a", Scope: "Wren", Began: at(20), Last: at(23)},
	}
	assert.Equal(t, 0, lastWorkedOn(open))
	assert.Equal(t, 1, lastWorkedOn(open[1:]), "no clock was put back between these")
	var says bytes.Buffer
	c := cli{streams: Streams{Err: &says}}
	c.sayTaken(open[0], open[1:])
	assert.Regexp(t, `^spotward: taken up: c \(Heron, begun .*\)\. Also unfinished: b \(Heron, begun .*\), a \(Wren, begun .*\)\n$`, says.String())
}
