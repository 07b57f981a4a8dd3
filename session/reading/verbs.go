package reading

import (
	"slices"

	"spotward/session/lex"
)

// Verbs that say which way a screw went with a word after them: screwed in, backed
// off. The word may stand behind the screw: "backed C off".
var (
	driven  = lex.WordSet("screwed wound driven")
	backed  = lex.WordSet("backed back let slacked wound screwed")
	inward  = lex.WordSet("in down")
	outward = lex.WordSet("off out")
)

// turnVerbs writes such a verb as tightened or eased.
func turnVerbs(toks []lex.Token, c Context) []lex.Token {
	for i, t := range toks {
		j := i + 1
		for j < min(i+4, len(toks)) && (toks[j].Is("it", "the", "them", "both", "screw", "lock") || labelled(toks[j], c) != "") {
			j++
		}
		particle := lex.TokenAt(toks, j)
		said := ""
		switch {
		case driven[t.Raw] && inward[particle.Raw], t.Is("done", "did", "snugged", "nipped") && particle.Is("up"):
			said = "tightened"
		case backed[t.Raw] && outward[particle.Raw]:
			said = "eased"
		}
		if said == "" || particle.Part {
			continue
		}
		out := slices.Delete(slices.Clone(toks), j, j+1)
		out[i].Raw = said
		return turnVerbs(out, c)
	}
	return toks
}

// inOrOut asks of "C out 1/8, B in 1/8" whether the screws went that way: the words
// are those of a spot as well.
func (c Context) inOrOut(toks []lex.Token) *lex.Error {
	out, found := slices.Clone(toks), false
	for i, t := range out {
		way := 0
		switch {
		case t.Is("in"):
			way = 1
		case t.Is("out"):
			way = -1
		}
		before, next := lex.TokenAt(out, i-1), lex.TokenAt(out, i+1)
		switch {
		case way == 0:
		case labelled(before, c) != "" && next.Shape == lex.ShapeFraction:
			out[i+1].Sign, out[i+1].Value = way, float64(way)*next.Value
			out[i].Raw, found = "of", true
		case labelled(before, c) != "" && partFollows(out, i+1) > 0:
			out[i].Raw, found = map[int]string{1: "tightened", -1: "eased"}[way], true
			if before.Raw == "a" {
				out[i-1].Upper = true
			}
		case before.Shape == lex.ShapeFraction && labelled(lex.TokenAt(out, i-2), c) != "":
			out[i-1].Sign, out[i-1].Value = way, float64(way)*before.Value
			out[i].Raw, found = "of", true
		}
	}
	if !found {
		return nil
	}
	said, err := parseStrictly(out, c)
	if err != nil || said.Kind != SaidTurned {
		return nil
	}
	return askBack(c.line, "is in tightened, and out eased?", c.retyped(said, out))
}

// partFollows returns what part of a turn comes next in words: "an eighth"; 0 = none.
func partFollows(toks []lex.Token, i int) float64 {
	if lex.TokenAt(toks, i).Is("a", "an") {
		i++
	}
	part, _ := lex.PartWord(lex.TokenAt(toks, i))
	return part
}

// withoutInstead takes "instead of C", and what was told after "instead of", off a
// line that says what was turned.
func withoutInstead(toks []lex.Token, c Context) []lex.Token {
	for i, t := range toks {
		j := i + 1
		if lex.TokenAt(toks, j).Is("of") {
			j++
		}
		next := lex.TokenAt(toks, j)
		if t.Is("instead") && labelled(next, c) != "" {
			return slices.Delete(slices.Clone(toks), i, j+1)
		}
		if rest := lex.TokenAt(toks, j+1); t.Is("instead") && j > i+1 && (next.Shape == lex.ShapeFraction || partFollows(toks, j) > 0) && (rest.Raw == "" || rest.Is("turn") || next.Is("a", "an")) {
			return toks[:i]
		}
		if t.Is("instead") && (senseWord(next) != 0 || next.Is("out", "in")) { // the way that was told
			return slices.Delete(slices.Clone(toks), i+1, j+1)
		}
	}
	return toks
}

// howFar asks how far a screw went that was turned "a bit".
func (g gist) howFar(toks []lex.Token) *lex.Error {
	c := g.c
	if len(g.place) > 0 || !g.has("bit") || g.label == "" && c.Told == nil {
		return nil
	}
	way := g.sense(toks)
	turned := way != 0 || g.has("turn|gave|did") || g.has("just|too|more|less") && g.only("bit just too more less than said half quarter eighth far done did")
	if !turned || g.has("home|hole|ring|not|cant|hasnt") {
		return nil
	}
	return askBack(c.line, "how far in all?", c.amountWays(g.label, way, "1/16", "1/8")...)
}

// commentary are words that stand before a place and say how it came there, or what
// it is not.
var commentary = lex.WordSet("past over went move better worse bit hole ring far too much of out spot still yet middle centre not nearly hasnt jumped on its other side off edge")

// stateBefore are words of those that are a reading of their own unless denied.
var stateBefore = lex.WordSet("home in on dead centre middle same hole")

// withoutComment leaves out what is said before a whole place: "past the hole, now
// 8 o'clock 3", "not home yet, 2 2".
func (c Context) withoutComment(toks []lex.Token) []lex.Token {
	for i := 1; i < len(toks); i++ {
		if !toks[i].Part {
			continue
		}
		denied, state := false, false
		for _, t := range toks[:i] {
			class := lex.Classes[t.Raw]
			denied = denied || lex.Negative(t) || class == "past" || class == "went" || class == "out" || class == "off"
			state = state || stateBefore[string(class)] || stateBefore[t.Raw]
			if t.IsNumber() || lex.IsUnit(t) && !t.Is("ring", "rings") || isDirection(t) || labelled(t, c) != "" || !commentary[string(class)] && !commentary[t.Raw] && !lex.Fillers[t.Raw] && !stateBefore[string(class)] {
				return toks
			}
		}
		if state && !denied {
			return toks
		}
		if said, err := parseStrictly(toks[i:], c); err == nil && said.Kind == SaidPlace {
			return toks[i:]
		}
	}
	return toks
}
