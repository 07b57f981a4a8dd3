package reading

import (
	"slices"

	"spotward/optics"
	"spotward/session/lex"
)

// parseLoosely understands what people say of themselves, word for word the same
// in no two lines: rules look at which words there are, not at their order. A
// word that is not known, and a "not" that no rule expects, is never passed over.
func parseLoosely(toks []lex.Token, c Context, strict *lex.Error) (Said, *lex.Error) {
	toks, c = namedFace(lex.Tidy(turnVerbs(plainWords(mended(toks, c)), c), c.Face == optics.FaceTarget), c)
	for _, try := range []func([]lex.Token, Context) (Said, bool, *lex.Error){troubleTalk, turnAndSpot, looseWent, looseTurn, screwWords, stateWords, loosePlace, parted} {
		said, ok, err := try(toks, c)
		if err != nil || ok {
			return said, err
		}
	}
	return Said{}, c.refused(toks, strict)
}

// askBack returns an error that asks back.
func askBack(part, why string, examples ...string) *lex.Error {
	return &lex.Error{Asks: true, Part: part, Why: why, Examples: examples}
}

// plainWords takes words for numbers that count nothing as words: the bright one,
// two spots. "right" in front of "outside" says how exactly where the line has a
// clock position beside it.
func plainWords(toks []lex.Token) []lex.Token {
	var out []lex.Token
	count := len(slices.DeleteFunc(slices.Clone(toks), func(t lex.Token) bool { return !t.IsNumber() }))
	clock := count > 0
	toks = lex.Shortened(toks)
	for i, t := range toks {
		before, next := lex.TokenAt(toks, i-1), lex.TokenAt(toks, i+1)
		switch {
		case t.Is("clock") && next.Is("wise"):
			t.Raw = "clockwise"
		case t.Is("wise") && before.Is("clock"), t.Is("over", "across") && next.Is("to"),
			t.Is("or") && next.Is("so"), t.Is("so") && before.Is("or"), t.Raw == "two" && before.Is("in", "into") && lex.TokenAt(toks, i-2).Is("split", "splits"):
			continue
		case t.Is("second", "other", "another") && next.Is("at", "is"), t.Raw == "two" && i == 0 && next.Part && count > 2:
			continue
		case t.IsNumber() && (next.Is("missing") || next.Is("is", "are") && lex.TokenAt(toks, i+2).Is("missing")):
			t = lex.Token{Raw: "part", Gap: t.Gap}
		case t.Is("barely", "hardly") && next.Is("outside", "out", "in", "inside"):
			t.Raw = "just"
		case t.Is("top") && next.Is("of") && lex.TokenAt(toks, i+2).Is("each"):
			t.Raw = "together"
		case t.Is("it") && before.Is("down") && next.Raw == "":
			t.Raw = "hole"
		case t.Is("should") && before.Is("it", "spot"):
			t.Raw = "said"
		case t.Raw == "one" && next.Is("bright", "brighter", "dim", "dimmer", "faint", "fainter"):
			t = lex.Token{Raw: "spot", Part: t.Part, Gap: t.Gap}
		case t.Is("up") && before.Is("ended", "ends", "end", "showed", "shows", "show"), t.Is("other", "second", "another") && (next.Raw == "one" || next.Is("spot", "dot")):
			continue
		case t.Is("dead", "due") && isDirection(next) && clock:
			continue
		case t.Is("right") && exactly(toks[:i], toks[i+1:]), t.Is("right") && (next.Is("past", "where", "through") || next.Is("out") && before.Is("come", "came", "fell")),
			t.Is("toward", "towards", "the") && (next.Is("ground", "floor") || next.Is("the") && lex.TokenAt(toks, i+2).Is("ground", "floor")),

			t.Is("right") && next.Is("outside", "out", "beside", "past", "by") && clock && !isDirection(before):
			continue
		case t.Is("under", "over") && (next.IsNumber() || next.Is("a")), t.Is("just") && next.Is("under", "over") && (lex.TokenAt(toks, i+2).IsNumber() || lex.TokenAt(toks, i+2).Is("a")):
			continue
		case t.Is("laser") && onIt(toks, i):
			t.Raw = "face"
		case t.Is("ground", "floor"):
			t.Raw = "down"
		case t.Raw == "one" && (before.Is("first", "second", "bright", "brighter", "dim", "dimmer", "other", "another", "this", "that", "red", "faint", "fainter", "outgoing", "returning", "which", "no", "wrong", "right", "only", "just") || next.Is("spot", "dot")):
			t = lex.Token{Raw: "spot", Part: t.Part, Gap: t.Gap}
		case t.Is("left") && leaves(toks, i): // it left the hole
			if lex.TokenAt(toks, i+2).Is("face", "mirror", "card", "plate") {
				t = lex.Token{Raw: "off", Gap: t.Gap}
				break
			}
			out = append(out, lex.Token{Raw: "out", Gap: t.Gap})
			t = lex.Token{Raw: "of", Gap: true}
		case t.IsNumber() && (t.Value == 2 || t.Value == 3) && next.Is("red", "bright", "faint", "dim") && lex.TokenAt(toks, i+2).Is("spots", "dots"),
			t.IsNumber() && (t.Value == 2 || t.Value == 3) && (next.Is("spots", "dots", "reds", "beams", "lights", "points", "reflections", "reflection", "returns") || next.Is("of") && lex.TokenAt(toks, i+2).Is("them", "these")):
			t = lex.Token{Raw: "many", Part: t.Part, Gap: t.Gap}
		}
		out = append(out, t)
	}
	return out
}

// onIt reports whether "on" or "off" stands before the word at i, of a place and of no
// switch: off the laser.
func onIt(toks []lex.Token, i int) bool {
	if i--; lex.TokenAt(toks, i).Is("the") {
		i--
	}
	return lex.TokenAt(toks, i).Is("on", "off") && !lex.TokenAt(toks, i-1).Is("switch", "switched", "turn", "turned")
}

// leaves reports whether the "left" at i is a verb.
func leaves(toks []lex.Token, i int) bool {
	before, next := lex.TokenAt(toks, i-1), lex.TokenAt(toks, i+1)
	return !before.IsNumber() && !isDirection(before) && !before.Is("the", "to", "just", "bit") && next.Is("the") && lex.TokenAt(toks, i+2).Is("hole", "ring", "face", "plate", "card", "mirror", "middle", "centre", "center")
}

// faceNames are the words for a face that a place may be on.
var faceNames = map[string]optics.Face{
	"card": optics.FaceCard, "paper": optics.FaceCard, "face": optics.FaceTarget, "target": optics.FaceTarget,
	"mouth": optics.FaceMouth, "drawtube": optics.FaceMouth, "secondary": optics.FaceSecondary, "diagonal": optics.FaceSecondary,
	"primary": optics.FacePrimary,
}

// namedFace takes the name of a face off a line that has a place on it: "on the
// face 10 11".
func namedFace(toks []lex.Token, c Context) ([]lex.Token, Context) {
	numbers := slices.ContainsFunc(toks, lex.Token.IsNumber)
	if count := slices.DeleteFunc(slices.Clone(toks), func(t lex.Token) bool { return !t.IsNumber() }); len(count) > 2 && toks[0].Raw == "two" {
		c.moveTo(optics.FaceSecondary)
		return toks[1:], c
	}
	for i, t := range toks {
		f, ok := faceNames[t.Raw]
		if !ok || t.IsNumber() || !numbers || slices.ContainsFunc(toks, func(t lex.Token) bool { return t.Is("edge", "rim", "from", "off", "not", "outside", "beyond", "past") }) {
			continue
		}
		from := i
		for from > 0 && toks[from-1].Is("the", "on", "at", "in", "drawtubes") {
			from--
		}
		rest := append(slices.Clone(toks[:from]), toks[i+1:]...)
		if lex.TokenAt(toks, i+1).Raw == "s" {
			continue
		}
		c.moveTo(f)
		return rest, c
	}
	return toks, c
}

// moveTo has the line say something of another face than the one in question.
func (c *Context) moveTo(f optics.Face) {
	if c.Face != f {
		c.Face, c.Last, c.Goal = f, nil, optics.Goal{}
	}
}
