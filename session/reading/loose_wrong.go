package reading

import (
	"math"
	"slices"
	"spotward/session/lex"
)

// wrongOne understands that another screw was turned than was told: "turned A
// instead", "A not C".
func (g gist) wrongOne(toks []lex.Token) (Said, bool, *lex.Error) {
	c := g.c
	if len(g.place) > 0 || c.Told == nil {
		return Said{}, false, nil
	}
	if g.oneOfAPair() {
		return Said{}, false, askBack(c.line, "and the other one, as told?", c.screwWays(g.label)...)
	}
	named := c.labelsIn(toks)
	if len(named) == 0 || len(named) > 2 || len(named) == 2 && g.has("and") || !g.saysSwapped(toks, named) {
		return Said{}, false, nil
	}
	first := named[0]
	way := g.sense(toks)
	switch {
	case len(named) == 2 && !g.toldIs(named[1]):
		return Said{}, false, askBack(c.line, "which one was turned?", c.screwWays(first)...)
	case g.toldIs(first) && way != 0:
		return Said{}, false, nil
	case g.toldIs(first):
		return Said{}, false, askBack(c.line, "which one was turned?", c.screwWays("")...)
	case way != 0 && way != math.Copysign(1, c.Told.Moves[0].Turns):
		return Said{}, false, askBack(c.line, "how far?", c.screwWays(first)...)
	}
	return c.screwSaid("wrong "+first, c.line)
}

// oneOfAPair reports whether a line says of one of several told screws alone that
// it was turned, or was not.
func (g gist) oneOfAPair() bool {
	if g.label == "" || len(g.c.Told.Moves) < 2 {
		return false
	}
	left := g.has("turn|done|do|move") && (g.has("hasnt") || g.has("not") && g.has("turned|done"))
	alone := g.has("just") && g.has("done|turn|tightened|eased|loosened") && g.only("done just screw lock turn tightened eased loosened tighten ease")
	return left || alone
}

// saysSwapped reports whether a line says that the first screw it names was turned
// in the place of another.
func (g gist) saysSwapped(toks []lex.Token, named []string) bool {
	if !g.only("took used turn done did instead of not mistake for screw other rather than move eased ease tightened loosened") {
		return false
	}
	not := slices.ContainsFunc(toks, func(t lex.Token) bool { return t.Raw == "not" })
	return not || g.has("instead|mistake|rather") || len(named) == 1 && g.has("turn") && !g.toldIs(named[0])
}

// labelsIn returns the screws that a line names, in its order.
func (c Context) labelsIn(toks []lex.Token) (named []string) {
	for i, t := range toks {
		if l := labelled(t, c); l != "" && isLabel(toks, i, c) {
			named = append(named, l)
		}
	}
	return named
}
