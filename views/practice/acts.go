package practice

import (
	"slices"
	"strings"

	"spotward/optics"
	"spotward/session/answer"
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
	// undone is what is not as it is after it; nil where it makes no state.
	undone func(*Bench) string
}

// acts are in no order in which to do them.
var acts = []Act{
	{Word: lesson.ActCardOff, Echo: "the card is taken off the open end", do: func(b *Bench) { b.world.Card(false) }},
	{Word: lesson.ActCardOn, Echo: "the card is over the open end", do: func(b *Bench) { b.world.Card(true) },
		undone: func(b *Bench) string { return lacks(!b.world.Carded(), "no card is over the open end") }},
	{Word: lesson.ActKnock, Echo: "a knuckle on both cells", do: func(b *Bench) {
		b.world.Knock(optics.Secondary)
		b.world.Knock(optics.Primary)
	}},
	{Word: lesson.ActLaserOff, Echo: "the laser is switched off", do: func(b *Bench) { b.world.LaserOn(false) },
		undone: func(b *Bench) string { return lacks(b.world.Lit(), "the laser is on") }},
	{Word: lesson.ActLaserOn, Echo: "the laser is switched on", do: (*Bench).lightUp},
	{Word: lesson.ActReseat, Echo: "the laser is taken out of its holder, put back and clamped", do: func(b *Bench) { b.world.Reseat() }},
	{Word: lesson.ActSnugLocks, Echo: "the primary's locks are nipped, each a little, until all are snug", do: func(b *Bench) { b.world.SnugLocks() },
		undone: func(b *Bench) string { return lacks(!b.world.LocksSnug(), "the primary's locks are eased") }},
	{Word: lesson.ActSnugScrews, Echo: "the secondary's three screws are snug", do: func(b *Bench) {
		b.world.Snug(optics.Secondary)
		b.snugged = true
	}, undone: func(b *Bench) string { return lacks(!b.snugged, "nobody has been round the secondary's screws") }},
	{Word: lesson.ActSwing, Echo: "the tube is swung up to about 50 degrees and back", do: func(b *Bench) { b.world.Swing() }},
	{Word: lesson.ActTurnLaser, Echo: "the laser is turned once round in its holder", do: func(*Bench) {}},
}

// Acts returns all that can be done to the telescope beside turning its screws.
func Acts() []Act { return slices.Clone(acts) }

func lacks(yes bool, what string) string {
	if yes {
		return what
	}
	return ""
}

// Lacking is an act that is still to be done, and what is not well before it is.
type Lacking struct{ Word, Lacks string }

// Undone returns which of those acts are still to be done, in their order.
func (b *Bench) Undone(words []string) (left []Lacking) {
	for _, word := range words {
		for _, a := range acts {
			if a.Word != word || a.undone == nil {
				continue
			}
			if what := a.undone(b); what != "" {
				left = append(left, Lacking{word, what})
			}
		}
	}
	return left
}

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
func (b *Bench) Act(text string) (answer.Typed, bool) {
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
		return answer.Typed{Events: []event.Event{{Kind: KindAct, Text: word}}, Echo: echo}, true
	}
	return answer.Typed{}, false
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
