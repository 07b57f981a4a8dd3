package desk_test

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"spotward/session"
	"spotward/session/event"
	"spotward/session/scope"
	"spotward/views/desk"
)

func TestWordsOfAFrame(t *testing.T) {
	for want, ev := range map[string]event.Event{
		"The laser died":            {Kind: event.KindLaser},
		"The laser is weak":         {Kind: event.KindLaser, Is: event.SaysWeak},
		"A fresh cell in the laser": {Kind: event.KindLaser, Is: event.SaysFresh},
		"Answer: not today":         {Kind: event.KindChoice, Choice: session.VerdictNotToday},
		"Answer: the letters are there, A at 2:00, B at 6:00": {Kind: event.KindChoice, Choice: "unknown", Letters: map[string]scope.Clock{"B": "6:00", "A": "2:00"}},
		"Said of screw B: not turned":                         {Kind: event.KindScrew, Screw: "B", Is: event.SaysUnturned},
		"Said: other way":                                     {Kind: event.KindScrew, Is: event.SaysOtherWay},
		"Left out: no time":                                   {Kind: event.KindSkip, Why: "no time"},
	} {
		assert.Equal(t, want, desk.Frame{Event: ev}.Words())
	}
}
