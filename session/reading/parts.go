package reading

import (
	"math"
	"slices"

	"spotward/session/event"
	"spotward/session/lex"
)

// halves is a line of two parts, each by itself.
type halves struct {
	head, tail    []lex.Token
	first, second Said
	err1, err2    *lex.Error
}

// halvesOf returns the ways in which a line comes apart.
func (c Context) halvesOf(toks []lex.Token) (all []halves) {
	for i := 1; i < len(toks); i++ {
		if !toks[i].Part && !toks[i].Is("now", "spot", "dot", "so", "then") {
			continue
		}
		h := halves{head: toks[:i], tail: slices.Clone(toks[i:])}
		for len(h.tail) > 1 && h.tail[0].Is("then", "and", "so", "now") {
			h.tail = h.tail[1:]
		}
		h.tail[0].Part = false
		h.first, h.err1 = c.quietly(h.head)
		h.second, h.err2 = c.quietly(h.tail)
		all = append(all, h)
	}
	return all
}

func (s Said) ofScrew() bool {
	return s.Kind == SaidTurned || s.Kind == SaidScrew || s.Kind == SaidWrong
}

// turnAndSpot understands a line that says that what was told was done, and where the
// spot is: "did it, 2:30 and 5 mm". What else a screw did is asked for first.
func turnAndSpot(toks []lex.Token, c Context) (Said, bool, *lex.Error) {
	if c.Told == nil || len(c.Told.Moves) == 0 {
		return Said{}, false, nil
	}
	for _, h := range c.halvesOf(toks) {
		switch spot := h.err2 == nil && !h.second.ofScrew(); {
		case spot && c.saysMade(h.head):
			return h.second, true, nil
		case h.err1 == nil && !h.first.ofScrew() && c.saysMade(h.tail):
			return h.first, true, nil
		case h.err1 != nil || h.err2 != nil || !h.first.ofScrew():
		case h.first.Kind == SaidScrew && h.second.Kind == SaidScrew && h.first.Is == h.second.Is && h.first.Label == h.second.Label: // cannot turn C, it is stuck
			return h.first, true, nil
		case spot, h.first.Kind == SaidTurned && h.second.Kind == SaidScrew:
			return Said{}, false, askBack(c.line, "one thing at a time: the screw first?", c.retyped(h.first, h.head), c.retyped(h.second, h.tail))
		}
	}
	return Said{}, false, nil
}

// parted understands a yes beside a reading, and two readings that say the same. Two
// that do not are asked about.
func parted(toks []lex.Token, c Context) (Said, bool, *lex.Error) {
	if said, ok := c.atLast(toks); ok {
		return said, true, nil
	}
	for _, h := range c.halvesOf(toks) {
		switch {
		case h.err2 == nil && c.saysMade(h.head) && (!h.second.ofScrew() || len(c.labelsIn(h.head)) == 0):
			return h.second, true, nil
		case h.err1 != nil || h.err2 != nil:
		case (h.first.Kind == SaidSame || h.first.Kind == SaidGone || h.first.Kind == SaidCantSee) && h.second.Kind == SaidHome:
			return h.second, true, nil
		case h.first.Kind != h.second.Kind || h.first.At != h.second.At:
			return Said{}, false, askBack(c.line, "which of the two?", c.retyped(h.first, h.head), c.retyped(h.second, h.tail))
		}
	}
	return Said{}, false, nil
}

// howItCame are the words, or classes of them, that tell how a spot came to where it
// stands and nothing else.
var howItCame = lex.WordSet("turn done went move jumped past better yes see sign stay after once when finishing everything both")

// atLast understands a place behind words that tell how it came there: "after turning
// it is at 2, 4 mm".
func (c Context) atLast(toks []lex.Token) (Said, bool) {
	for i, t := range toks {
		if i > 0 && (t.Part || t.Is("at", "now", "to")) {
			rest := slices.Clone(toks[i:])
			for len(rest) > 1 && rest[0].Is("now", "to", "and", "then") {
				rest = rest[1:]
			}
			rest[0].Part = false
			if said, ok, err := loosePlace(rest, c); ok && err == nil && said.Kind == SaidPlace {
				return said, true
			}
		}
		if sense := senseWord(t); sense != 0 && !c.toldSense(toks, i, sense) {
			return Said{}, false
		}
		if t.IsNumber() || isDirection(t) || labelled(t, c) != "" && isLabel(toks, i, c) || !howItCame[string(lex.Classes[t.Raw])] && !howItCame[t.Raw] && !lex.Fillers[t.Raw] && senseWord(t) == 0 {
			return Said{}, false
		}
	}
	return Said{}, false
}

// toldSense reports whether the told moves go the way that the word at i says: that of
// the screw beside it, where one is named.
func (c Context) toldSense(toks []lex.Token, i int, sense float64) bool {
	for _, j := range []int{i + 1, i - 1} {
		if lex.TokenAt(toks, j).Is("the", "screw", "lock") {
			j += j - i
		}
		if l := labelled(lex.TokenAt(toks, j), c); l != "" {
			return c.toldWay(l)*sense > 0
		}
	}
	return c.Told != nil && !slices.ContainsFunc(c.Told.Moves, func(m event.ToldMove) bool { return m.Turns*sense < 0 })
}

// saysMade reports whether a part of a line says that what was told was turned, or
// yes, and nothing else: the screw, the way and the amount that it names are those
// that were told.
func (c Context) saysMade(toks []lex.Token) bool {
	made := lex.WordSet(madeWords)
	m := c.onlyTold()
	said := false
	swung := slices.ContainsFunc(toks, func(t lex.Token) bool { return lex.Classes[t.Raw] == "swing" })
	for i, t := range toks {
		part, isPart := lex.PartWord(t)
		sense := senseWord(t)
		switch {
		case t.Is("spot", "dot"), labelled(t, c) != "" && isLabel(toks, i, c) && !c.toldTo(labelled(t, c)), t.Is("lock", "locks") && m != nil && m.Lock == "", sense != 0 && !c.toldSense(toks, i, sense):
			return false
		case swung && (lex.Classes[t.Raw] == "swing" || t.Is("up", "down", "twice")):
			said = true
		case (made[t.Raw] || t.Is("screw", "screws")) && c.Told != nil, t.Is("yes", "yeah", "yep", "ok", "okay", "done", "right", "so"):
			said = true
		case m == nil && c.Told != nil && labelled(t, c) != "" && isLabel(toks, i, c) && c.toldTo(labelled(t, c)):
		case m == nil:
			if !lex.Fillers[t.Raw] {
				return false
			}
		case sense != 0 && sense == math.Copysign(1, m.Turns), t.Is("turn", "turns"):
			said = true
		case t.Shape == lex.ShapeFraction && t.Value == math.Abs(m.Turns), isPart && part == math.Abs(m.Turns):
		case labelled(t, c) != "" && isLabel(toks, i, c) && c.toldTo(labelled(t, c)):
		case !lex.Fillers[t.Raw]:
			return false
		}
	}
	return said
}
