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

// act is something that can be done to the telescope beside turning its screws.
type act struct {
	word string
	echo string
	do   func(*Bench)
}

// acts are in the order in which they are listed, which is no order in which
// to do them.
func acts() []act {
	return []act{
		{"card off", "the card is taken off the open end", func(b *Bench) { b.world.Card(false) }},
		{"card on", "the card is over the open end", func(b *Bench) { b.world.Card(true) }},
		{"knock", "a knuckle on both cells", func(b *Bench) {
			b.world.Knock(optics.Secondary)
			b.world.Knock(optics.Primary)
		}},
		{"laser off", "the laser is switched off", func(b *Bench) { b.world.LaserOn(false) }},
		{"laser on", "the laser is switched on", (*Bench).lightUp},
		{"re-seat", "the laser is taken out of its holder, put back and clamped", func(b *Bench) { b.world.Reseat() }},
		{"swing", "the tube is swung up to about 50 degrees and back", func(b *Bench) { b.world.Swing() }},
		{"turn laser", "the laser is turned once round in its holder", func(*Bench) {}},
	}
}

// Acts returns the words for all that can be done to the telescope beside
// turning its screws.
func Acts() []string {
	var words []string
	for _, a := range acts() {
		words = append(words, a.word)
	}
	return words
}

// Act understands a line about something done to the telescope that the
// session does not ask for: "card off", "laser off", "knock". Its echo says
// what was done, and what is seen while it is.
func (b *Bench) Act(text string) (session.Typed, bool) {
	word := strings.Join(strings.Fields(strings.ToLower(text)), " ")
	if word == "reseat" {
		word = "re-seat"
	}
	for _, a := range acts() {
		if a.word != word {
			continue
		}
		echo := a.echo
		if word == "turn laser" {
			echo += ". " + b.circleWords()
		}
		return session.Typed{Events: []session.Event{{Kind: KindAct, Text: word}}, Echo: echo}, true
	}
	return session.Typed{}, false
}

// acted makes an act true.
func (b *Bench) acted(word string) {
	for _, a := range acts() {
		if a.word == word {
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
