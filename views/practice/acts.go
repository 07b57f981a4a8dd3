package practice

import (
	"strings"

	"spotward/optics"
	"spotward/session"
)

// KindAct is what somebody did to the practice telescope that no question asks
// for, wise or not. It is journalled; the session takes no notice of it, as it
// takes none of what it is not told at a real one.
const KindAct session.Kind = "act"

// Act understands a line about something done to the telescope that the
// session does not ask for: "card off", "laser off", "knock". Its echo says
// what was done.
func (b *Bench) Act(text string) (session.Typed, bool) {
	word := strings.Join(strings.Fields(strings.ToLower(text)), " ")
	echo, ok := map[string]string{
		"laser on":  "the laser is switched on",
		"laser off": "the laser is switched off",
		"card on":   "the card is over the open end",
		"card off":  "the card is taken off the open end",
		"swing":     "the tube is swung up to about 50 degrees and back",
		"knock":     "a knuckle on both cells",
	}[word]
	return session.Typed{Events: []session.Event{{Kind: KindAct, Text: word}}, Echo: echo}, ok
}

// acted makes an act true.
func (b *Bench) acted(word string) {
	switch word {
	case "laser on", "laser off":
		b.world.LaserOn(word == "laser on")
	case "card on", "card off":
		b.world.Card(word == "card on")
	case "swing":
		b.world.Swing()
	case "knock":
		b.world.Knock(optics.Secondary)
		b.world.Knock(optics.Primary)
	}
}
