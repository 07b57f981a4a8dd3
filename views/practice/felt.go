package practice

import (
	"math"
	"slices"
	"strings"

	"spotward/optics"
	"spotward/optics/virtual"
	"spotward/session/words"
)

// Felt returns what the hand felt in the turns since the last answer, in words;
// "" is nothing out of the ordinary. What was felt at every go is said once.
func (b *Bench) Felt() string {
	felt := []string{b.unasked}
	for _, f := range b.felt {
		if !slices.Contains(felt, f) {
			felt = append(felt, f)
		}
	}
	return strings.TrimSpace(strings.Join(felt, " "))
}

// TakeFelt returns what the hand felt since it was last taken, in words, and
// forgets it.
func (b *Bench) TakeFelt() string {
	felt := b.Felt()
	b.felt, b.unasked = nil, ""
	return felt
}

// sensation is what a hand feels, by itself and with what that is called.
type sensation struct{ plain, named string }

var sensations = map[virtual.Felt]sensation{
	virtual.Free:     {" goes slack: from there on it meets nothing.", " has come free: it turns without holding anything."},
	virtual.Stuck:    {" does not give: two fingers on the key move it no further.", " stops and will go no further: it is stuck."},
	virtual.AtEnd:    {" turns a little, then comes up hard as against a wall.", " has come up hard: it is at its end."},
	virtual.Sticky:   {" goes stiffly, in jerks.", " goes stiffly, in jerks."},
	virtual.Binds:    {" binds: it pushes against something taut, and nothing gives.", " binds: it pushes against something taut, and nothing gives."},
	virtual.Slipped:  {": the key came out of the head half way.", ": the key slipped out of the head half way."},
	virtual.Stripped: {" turns and turns, with no feel of a thread.", " turns and turns, with no feel of a thread."},
}

// Unnamed has what the hand feels told without what it is called, where that is
// the question.
func (b *Bench) Unnamed(yes bool) { b.unnamed = yes }

// Names reports whether the hand felt something, and it is called by its name.
func (b *Bench) Names() bool { return !b.unnamed && len(b.felt) > 0 }

// feltWords says what a hand feels while it turns a screw or lock; nothing when
// that is as it should be.
func (b *Bench) feltWords(t optics.Turn, f virtual.Felt) []string {
	name := t.Screw
	if t.Lock != "" {
		name = "Lock " + t.Lock
	}
	felt, out := sensations[f]
	switch {
	case !out:
		return nil
	case b.unnamed:
		return []string{name + felt.plain}
	}
	return []string{name + felt.named}
}

// looseTurns is how far a screw is taken up before it bites that anybody calls
// loose.
const looseTurns = 1. / 16

// snugWords says which screw stood off farthest as all were made snug, if any
// was loose.
func snugWords(labels []string, turns []float64) []string {
	most := 0
	for i := range turns {
		if turns[i] > turns[most] {
			most = i
		}
	}
	if turns[most] < looseTurns {
		return nil
	}
	return []string{labels[most] + " is loose: it turns about " + words.TurnsText(math.Round(16*turns[most])/16) + " before it grips."}
}
