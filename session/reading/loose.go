package reading

import (
	"slices"
	"strings"

	"spotward/optics"
)

// gist is a line in loose talk: what its words stand for, and the numbers and
// directions in it.
type gist struct {
	words []token // without fillers
	all   []token // every word
	place []token // numbers, units, directions, as typed
	label string  // the one screw that is named; "" = none, or more than one
	names int     // how many are
	c     Context
}

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

// mended writes a word that is not known but is one letter off a word of the
// instrument as that word.
func mended(toks []token, c Context) []token {
	out := slices.Clone(toks)
	for i, t := range out {
		if t.shape == shapeWord && len(t.raw) >= 5 && !knownToken(t, c) {
			if w := nearest(t.raw); w != "" {
				out[i].raw = w
			}
		}
	}
	return out
}

// knownToken reports whether a word has a meaning, or is known to have none.
func knownToken(t token, c Context) bool {
	if t.shape != shapeWord || classes[t.raw] != "" || fillers[t.raw] || placeFillers[t.raw] || isUnit(t) || isDirection(t) || knownWord(t.raw) {
		return true
	}
	_, number := spelled(t.raw)
	_, part := partWord(t)
	return number || part || t.is("-", "o", "oclock", "h", "degrees", "deg", "couple", "between", "half", "st", "nd", "rd", "th") || labelled(t, c) != "" ||
		t.is("r", "l", "u", "d") || senseWord(t) != 0 || compass[t.raw] != ""
}

// labelled returns the label of the screw in hand that a token is, or "".
func labelled(t token, c Context) string {
	for _, l := range c.cell().Labels {
		if t.is(strings.ToLower(l)) {
			return l
		}
	}
	return ""
}

// mendable are the words that a slip of the fingers is mended to: none of them
// turns another into its opposite.
var mendable = strings.Fields("oclock centre center middle inside outside right lower upper bottom mirror around quarter secondary primary spot target " +
	"rings millimetres inches tightened loosened eased turned stuck routine dropped carried")

// nearest returns the mendable word that is one slip from w, or "".
func nearest(w string) string {
	found := ""
	for _, m := range mendable {
		if oneSlip(w, m) {
			if found != "" {
				return ""
			}
			found = m
		}
	}
	return found
}

// oneSlip reports whether a and b differ by one letter left out, added, mistyped
// or changed with its neighbour.
func oneSlip(a, b string) bool {
	if len(a) > len(b) {
		a, b = b, a
	}
	if len(b)-len(a) > 1 || a == b {
		return false
	}
	i := 0
	for i < len(a) && a[i] == b[i] {
		i++
	}
	if len(a) < len(b) {
		return a[i:] == b[i+1:]
	}
	if a[i+1:] == b[i+1:] {
		return true
	}
	return i+1 < len(a) && a[i] == b[i+1] && a[i+1] == b[i] && a[i+2:] == b[i+2:]
}

// gistOf sorts the words of a line.
func gistOf(toks []token, c Context) gist {
	g := gist{c: c}
	seen := map[string]bool{}
	for i, t := range toks {
		switch l := labelled(t, c); {
		case l != "" && isLabel(toks, i, c):
			if !seen[l] {
				seen[l] = true
				g.names++
				g.label = l
			}
			continue
		case t.isNumber(), isUnit(t) && !t.is("ring", "rings"), t.is("oclock"):
			g.place = append(g.place, t)
			continue
		case t.is("ring", "rings") && tokenAt(toks, i-1).isNumber():
			g.place = append(g.place, t)
			continue
		case isDirection(t) && !downHole(toks, i):
			g.place = append(g.place, t)
			continue
		case t.is("at", "toward", "towards"):
			g.place = append(g.place, t)
			continue
		}
		g.all = append(g.all, t)
		if !fillers[t.raw] {
			g.words = append(g.words, t)
		}
	}
	if g.names != 1 {
		g.label = ""
	}
	return g
}

// downHole reports whether the direction at i is none: right down the hole.
func downHole(toks []token, i int) bool {
	for i++; i < len(toks) && toks[i].is("the", "down", "in", "into", "through", "inside", "on", "at"); i++ {
		if tokenAt(toks, i+1).is("hole") || tokenAt(toks, i+2).is("hole") && tokenAt(toks, i+1).is("the") {
			return true
		}
	}
	return tokenAt(toks, i).is("hole")
}

// isLabel reports whether the letter at i is a screw's: "a" before a noun or an
// amount is an article, and "r" after a number is a unit.
func isLabel(toks []token, i int, c Context) bool {
	t, next := toks[i], tokenAt(toks, i+1)
	if tokenAt(toks, i-1).is("screw", "lock", "bolt") {
		return true
	}
	if _, side := directionLetter(t); side {
		return !next.isNumber() && !tokenAt(toks, i-1).isNumber()
	}
	if t.raw != "a" {
		return true
	}
	return t.upper && i > 0 || afterLabel[next.raw] || senseWord(next) != 0 || next.sign != 0 || next.raw == "" && i > 0
}

// afterLabel are words that stand behind the letter of a screw and never behind
// an article.
var afterLabel = wordSet("is was wont cant cannot doesnt didnt hasnt wouldnt not stuck jammed seized blocked loose free slack slipped sticky stripped at end came went turned turns instead other wrong by only and has had will")

// wordPattern is which words a line must have, and which it may have beside them.
type wordPattern struct {
	need [][]string      // of each one
	may  map[string]bool // words or classes
}

// patternOf reads a pattern: words or classes that are needed, alternatives
// parted by strokes, and those that may stand beside them.
func patternOf(need, may string) wordPattern {
	p := wordPattern{may: wordSet(strings.ReplaceAll(need, "|", " ") + " " + may)}
	for _, alt := range strings.Fields(need) {
		p.need = append(p.need, strings.Split(alt, "|"))
	}
	return p
}

// matches reports whether the line has a word of each need, and none but those
// and what may stand beside them, and fillers.
func (g gist) matches(p wordPattern) bool {
	for _, alternatives := range p.need {
		if !g.hasOf(alternatives) {
			return false
		}
	}
	return g.onlyOf(p.may)
}

func (g gist) hasOf(alternatives []string) bool {
	for _, t := range g.all {
		for _, alt := range alternatives {
			if t.raw == alt || classes[t.raw] == class(alt) {
				return true
			}
		}
	}
	return false
}

func (g gist) onlyOf(may map[string]bool) bool {
	for _, t := range g.words {
		if !may[t.raw] && (classes[t.raw] == "" || !may[string(classes[t.raw])]) {
			return false
		}
	}
	return true
}

// has reports whether one of the words or classes is in the line; alternatives
// are parted by strokes.
func (g gist) has(alternatives string) bool { return g.hasOf(strings.Split(alternatives, "|")) }

// only reports whether the line has no words but these, and fillers.
func (g gist) only(list string) bool { return g.onlyOf(wordSet(list)) }

// text returns the line as it was typed, for an error.
func lineText(toks []token) string { return (&parser{toks: toks}).restFrom(0) }
