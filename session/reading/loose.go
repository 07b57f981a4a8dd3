package reading

import (
	"slices"

	"spotward/optics"
)

// parseLoosely understands what people say of themselves, word for word the same
// in no two lines: rules look at which words there are, not at their order. A
// word that is not known, and a "not" that no rule expects, is never passed over.
func parseLoosely(toks []token, c Context, strict *Error) (Said, *Error) {
	toks, c = namedFace(tidy(plainWords(mended(toks, c)), c.Face == optics.FaceTarget), c)
	for _, try := range []func([]token, Context) (Said, bool, *Error){troubleTalk, looseTurn, screwWords, stateWords, loosePlace} {
		said, ok, err := try(toks, c)
		if err != nil || ok {
			return said, err
		}
	}
	return Said{}, c.refused(toks, strict)
}

// askBack returns an error that asks back.
func askBack(part, why string, examples ...string) *Error {
	return &Error{ask: true, Part: part, Why: why, Examples: examples}
}

// plainWords takes words for numbers that count nothing as words: the bright one,
// two spots. "right" in front of "outside" says how exactly where the line has a
// clock position beside it.
func plainWords(toks []token) []token {
	var out []token
	clock := slices.ContainsFunc(toks, token.isNumber)
	toks = shortened(toks)
	for i, t := range toks {
		before, next := tokenAt(toks, i-1), tokenAt(toks, i+1)
		switch {
		case t.is("other", "second") && next.is("one", "spot", "dot"):
			continue
		case t.is("dead") && isDirection(next) && clock:
			continue
		case t.is("right") && exactly(toks[:i], toks[i+1:]),
			t.is("right") && next.is("outside", "out", "beside", "past", "by") && clock && !isDirection(before):
			continue
		case t.raw == "one" && (before.is("bright", "brighter", "dim", "dimmer", "other", "this", "that", "red", "faint", "fainter", "outgoing", "returning", "which", "no", "wrong", "right", "only", "just") || next.is("spot", "dot")):
			t = token{raw: "spot", part: t.part, gap: t.gap}
		case t.isNumber() && (t.value == 2 || t.value == 3) && (next.is("spots", "dots", "reds", "beams", "lights", "points") || next.is("of") && tokenAt(toks, i+2).is("them", "these")):
			t = token{raw: "many", part: t.part, gap: t.gap}
		}
		out = append(out, t)
	}
	return out
}

// shortened writes "can not" as cant, and so on.
func shortened(toks []token) []token {
	short := map[string]string{
		"can": "cant", "could": "couldnt", "will": "wont", "would": "wouldnt", "do": "dont", "does": "doesnt",
		"did": "didnt", "has": "hasnt", "have": "hasnt", "had": "hasnt", "is": "isnt", "was": "wasnt", "are": "arent",
	}
	out := make([]token, 0, len(toks))
	for i, t := range toks {
		if w := short[t.raw]; w != "" && tokenAt(toks, i+1).is("not") {
			t.raw = w
		} else if t.is("not") && short[tokenAt(toks, i-1).raw] != "" {
			continue
		}
		out = append(out, t)
	}
	return out
}

// faceNames are the words for a face that a place may be on.
var faceNames = map[string]optics.Face{
	"card": optics.FaceCard, "paper": optics.FaceCard, "face": optics.FaceTarget, "target": optics.FaceTarget,
	"mouth": optics.FaceMouth, "drawtube": optics.FaceMouth, "secondary": optics.FaceSecondary, "diagonal": optics.FaceSecondary,
	"primary": optics.FacePrimary,
}

// namedFace takes the name of a face off a line that has a place on it: "on the
// face 10 11".
func namedFace(toks []token, c Context) ([]token, Context) {
	numbers := slices.ContainsFunc(toks, token.isNumber)
	if count := slices.DeleteFunc(slices.Clone(toks), func(t token) bool { return !t.isNumber() }); len(count) > 2 && toks[0].raw == "two" {
		c.moveTo(optics.FaceSecondary)
		return toks[1:], c
	}
	for i, t := range toks {
		f, ok := faceNames[t.raw]
		if !ok || t.isNumber() || !numbers || slices.ContainsFunc(toks, func(t token) bool { return t.is("edge", "rim", "from", "off", "not") }) {
			continue
		}
		from := i
		for from > 0 && toks[from-1].is("the", "on", "at", "in", "drawtubes") {
			from--
		}
		rest := append(slices.Clone(toks[:from]), toks[i+1:]...)
		if tokenAt(toks, i+1).raw == "s" {
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
