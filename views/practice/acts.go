package practice

import (
	"slices"
	"strings"

	"spotward/optics"
	"spotward/session"
	"spotward/session/event"
	"spotward/session/lesson"
)

// KindAct is what somebody did to the practice telescope that no question asks
// for, wise or not. It is journalled; the session takes no notice of it, as it
// takes none of what it is not told at a real one.
const KindAct event.Kind = "act"

// Act is something that can be done to the telescope beside turning its screws.
type Act struct {
	Word string // that is typed for it
	Echo string // what was done
	do   func(*Bench)
}

// acts are in no order in which to do them.
var acts = []Act{
	{lesson.ActCardOff, "the card is taken off the open end", func(b *Bench) { b.world.Card(false) }},
	{lesson.ActCardOn, "the card is over the open end", func(b *Bench) { b.world.Card(true) }},
	{lesson.ActKnock, "a knuckle on both cells", func(b *Bench) {
		b.world.Knock(optics.Secondary)
		b.world.Knock(optics.Primary)
	}},
	{lesson.ActLaserOff, "the laser is switched off", func(b *Bench) { b.world.LaserOn(false) }},
	{lesson.ActLaserOn, "the laser is switched on", (*Bench).lightUp},
	{lesson.ActReseat, "the laser is taken out of its holder, put back and clamped", func(b *Bench) { b.world.Reseat() }},
	{lesson.ActSwing, "the tube is swung up to about 50 degrees and back", func(b *Bench) { b.world.Swing() }},
	{lesson.ActTurnLaser, "the laser is turned once round in its holder", func(*Bench) {}},
}

// Acts returns all that can be done to the telescope beside turning its screws.
func Acts() []Act { return slices.Clone(acts) }

// ActWords returns the words that are typed for acts, in a row.
func ActWords(acts []Act) string {
	words := make([]string, len(acts))
	for i, a := range acts {
		words[i] = a.Word
	}
	return strings.Join(words, ", ")
}

// Act understands a line about something done to the telescope that the
// session does not ask for: "card off", "laser off", "knock". Its echo says
// what was done, and what is seen while it is.
func (b *Bench) Act(text string) (session.Typed, bool) {
	word := strings.Join(strings.Fields(strings.ToLower(text)), " ")
	if word == "reseat" {
		word = lesson.ActReseat
	}
	for _, a := range acts {
		if a.Word != word {
			continue
		}
		echo := a.Echo
		if word == lesson.ActTurnLaser {
			echo += ". " + b.circleWords()
		}
		return session.Typed{Events: []event.Event{{Kind: KindAct, Text: word}}, Echo: echo}, true
	}
	return session.Typed{}, false
}

// acted makes an act true.
func (b *Bench) acted(word string) {
	for _, a := range acts {
		if a.Word == word {
			a.do(b)
		}
	}
}

// lightUp switches the laser on with nobody asking for it, and counts whether
// the card was up.
func (b *Bench) lightUp() {
	if !b.world.Lit() {
		b.lit++
		if b.world.Carded() {
			b.carded++
		}
	}
	b.world.LaserOn(true)
}
