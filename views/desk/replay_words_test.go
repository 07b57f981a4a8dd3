package desk_test

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"spotward/session"
	"spotward/views/desk"
)

func TestWordsOfAFrame(t *testing.T) {
	for want, ev := range map[string]session.Event{
		"The laser died":            {Kind: session.KindLaser},
		"The laser is weak":         {Kind: session.KindLaser, Is: session.SaysWeak},
		"A fresh cell in the laser": {Kind: session.KindLaser, Is: session.SaysFresh},
		"Answer: not today":         {Kind: session.KindChoice, Choice: session.VerdictNotToday},
		"Answer: the letters are there, A at 2:00, B at 6:00": {Kind: session.KindChoice, Choice: "unknown", Letters: map[string]session.Clock{"B": "6:00", "A": "2:00"}},
		"Said of screw B: not turned":                         {Kind: session.KindScrew, Screw: "B", Is: session.SaysUnturned},
		"Said: other way":                                     {Kind: session.KindScrew, Is: session.SaysOtherWay},
		"Left out: no time":                                   {Kind: session.KindSkip, Why: "no time"},
	} {
		assert.Equal(t, want, desk.Frame{Event: ev}.Words())
	}
}
