package reading

import (
	"slices"
	"strings"

	"spotward/session/words"
)

// loosePlace understands a place among words that change nothing of it: "it's
// about 12 mm off at 4:30".
func loosePlace(toks []token, c Context) (Said, bool, *Error) {
	if err := c.noPlace(toks); err != nil {
		return Said{}, false, err
	}
	toks, beyond := c.outsideOf(toks)
	toks, err := withoutFrom(toks, c)
	if err != nil {
		return Said{}, false, err
	}
	kept, inside := toks[:0:0], ""
	for i, t := range toks {
		switch {
		case t.isNumber(), isUnit(t), isDirection(t), t.is("oclock", "h", "edge", "rim", "tube", "half", "quarter", "past", "after"):
		case t.is("o") && tokenAt(toks, i+1).is("clock"):
		case t.is("clock") && tokenAt(toks, i-1).is("o"):
		case t.is("focuser") && slanting(kept):
		case t.is("toward", "towards", "away") && !tokenAt(toks, i+1).isNumber() && tokenAt(toks, i+1).raw != "" && !tokenAt(toks, i+1).is("at", "from"):
		case t.is("toward", "towards"):
			continue
		case t.is("off", "out", "outside", "over", "past", "near", "beyond", "close") && nextIs(toks, i, "edge", "rim"):
			return Said{}, false, nil
		case t.is("at") && (len(kept) == 0 || tokenAt(kept, len(kept)-1).isNumber() || isUnit(tokenAt(kept, len(kept)-1))):
		case t.is("to") && tokenAt(toks, i-1).is("quarter"):
		case t.is("in", "inside", "out", "outside") && (t.part || tokenAt(toks, i+1).part):
			inside = t.raw
			continue
		case t.is("-") && tokenAt(toks, i-1).shape == shapeClock:
			continue
		case counted[t.raw] && tokenAt(toks, i-1).plainNumber():
			return Said{}, false, nil // as far as two mirrors: no unit
		case t.is("=", "x") && tokenAt(toks, i-1).isNumber() && tokenAt(toks, i+1).isNumber():
			continue
		case fillers[t.raw], placeFillers[t.raw], classes[t.raw] == "bit", classes[t.raw] == "move", classes[t.raw] == "went":
			continue
		default:
			return Said{}, false, nil
		}
		t.gap = true
		kept = append(kept, t)
	}
	said, ok, err := placeForms(kept, c)
	if ok && beyond {
		return c.beyond(said)
	}
	if ok && inside != "" && !c.agrees(said, inside) {
		return Said{}, false, askBack(c.line, inside+", and as far as that?", words.ReadingText(said.At))
	}
	return said, ok, err
}

// nextIs reports whether the next word but articles is one of a list.
func nextIs(toks []token, i int, list ...string) bool {
	for i++; tokenAt(toks, i).is("the", "its", "very", "to"); i++ {
	}
	return tokenAt(toks, i).is(list...)
}

// counted are fillers that could be counted in: beside a number they are none.
var counted = wordSet("mirror mirrors primary spot spots dot dots point light side corner")

// placeForms reads tokens that are a place and nothing else.
func placeForms(toks []token, c Context) (Said, bool, *Error) {
	p := &parser{toks: toks, c: c}
	for _, form := range []form{signedPairForm, wordedPairForm, distanceFirstForm, directionFirstForm} {
		p.at = 0
		said, ok, err := form(p)
		if ok || err != nil {
			return said, ok, err
		}
	}
	return Said{}, false, nil
}

// slanting reports whether "toward" or "away" was read last.
func slanting(kept []token) bool {
	return len(kept) > 0 && kept[len(kept)-1].is("toward", "towards", "away")
}

// agrees reports whether a place is on that side of ring or hole.
func (c Context) agrees(said Said, side string) bool {
	r, err := c.circle(side)
	if err != nil {
		return false
	}
	if side == "in" || side == "inside" {
		return said.At.Len() <= r.outerMM
	}
	return said.At.Len() >= r.innerMM
}

// outsideOf takes "outside the ring" off a line that has a distance: it is
// measured from there.
func (c Context) outsideOf(toks []token) ([]token, bool) {
	for i, t := range toks {
		if !t.is("outside", "beyond") && !(t.is("out") && tokenAt(toks, i+1).is("of")) {
			continue
		}
		j := i + 1
		for tokenAt(toks, j).is("of", "the", "edge") {
			j++
		}
		if tokenAt(toks, j).is("ring", "hole") && i > 0 {
			return append(slices.Clone(toks[:i]), toks[j+1:]...), true
		}
	}
	return toks, false
}

// beyond puts a place as far from the ring's or the hole's rim as it was read from
// its middle.
func (c Context) beyond(s Said) (Said, bool, *Error) {
	r, err := c.circle("outside")
	if err != nil || s.At.Len() == 0 {
		return Said{}, false, err
	}
	mm := s.At.Len() + r.outerMM
	d := scaled(s.At, mm/s.At.Len())
	if err := c.tooFar(mm); err != nil {
		return Said{}, false, err
	}
	far := c.at(SaidPlace, d, withEyes(sigmaMMFrac*s.At.Len()), sigmaWordsRad)
	far.echo = words.PlaceText(c.Face, d, words.MmText(mm))
	return far, true, nil
}

// refWords are what a distance may be said to be from.
var refWords = wordSet("the middle centre center hole holes ring rings it mirror mirrors card tube drawtube mouth bright brighter one other outgoing spot of its target face exact primary")

// withoutFrom leaves out what a place is measured from: "from the middle", "of
// the hole". From the edge is not how it is measured.
func withoutFrom(toks []token, c Context) ([]token, *Error) {
	var out []token
	for i := 0; i < len(toks); i++ {
		t := toks[i]
		off := t.is("off", "out", "away") && tokenAt(toks, i+1).is("the", "from", "of") && len(out) > 0
		sided := len(out) > 0 && (isDirection(out[len(out)-1]) || out[len(out)-1].is("side"))
		of := sided && (t.is("of") || t.is("the") && refWords[tokenAt(toks, i+1).raw])
		if !t.is("from") && !of && !off {
			out = append(out, t)
			continue
		}
		j := i + 1
		for tokenAt(toks, j).is("from", "of") || refWords[tokenAt(toks, j).raw] && !tokenAt(toks, j).isNumber() {
			j++
		}
		if tokenAt(toks, j).is("edge", "rim", "wall", "lip", "side") {
			return nil, askBack(lineText(toks[i:min(j+1, len(toks))]), "how far "+words.FromWords(c.Face)+"?", c.examples()[0])
		}
		if j == i+1 || (off && toks[j-1].is("ring", "rings", "hole") && t.is("off", "out")) {
			out = append(out, t)
			continue
		}
		if j < len(toks) {
			toks[j].part = true
		}
		i = j - 1
	}
	return out, nil
}

// compass gives the words for a chart's directions as those of a dial.
var compass = map[string]string{
	"ne": "high right", "nw": "high left", "se": "low right", "sw": "low left",
	"north": "up", "south": "down", "east": "right", "west": "left", "northeast": "high right",
	"northwest": "high left", "southeast": "low right", "southwest": "low left",
}

// noPlace asks about what sounds like a place and is none: how far it moved, a
// little to a side, a direction of the compass.
func (c Context) noPlace(toks []token) *Error {
	text := c.line
	way, hedged, number := "", false, false
	for i, t := range toks {
		next := tokenAt(toks, i+1)
		switch {
		case isNegative(t):
			return nil
		case isDirection(t):
			way = strings.TrimSpace(way + " " + t.raw)
		case t.isNumber() && !next.is("oclock", "o", "h"):
			number = true
		case t.is("or"):
			return askBack(text, "which of the two?", c.examples()...)
		case t.is("to") && tokenAt(toks, i-1).isNumber() && next.isNumber() && !tokenAt(toks, i-1).is("quarter"):
			return askBack(text, "from one to the other?", c.examples()...)
		case classes[t.raw] == "bit":
			hedged = true
		case compass[t.raw] != "":
			return askBack(t.raw, "as on a dial, 12 straight up?", compass[t.raw]+" 12", "4:30 12")
		case t.is("degrees", "deg", "degree"):
			return askBack(tokenAt(toks, i-1).raw+" "+t.raw, "at which hour of a dial, 12 straight up?", c.examples()[0])
		case classes[t.raw] == "move" && next.isNumber() && (isUnit(tokenAt(toks, i+2)) || isDirection(tokenAt(toks, i+2))),
			(classes[t.raw] == "move" || classes[t.raw] == "went") && toward(toks[i+1:]):
			return askBack(text, "where does it stand now?", c.examples()...)
		}
	}
	near := c.examples()[0]
	if way != "" {
		near = way + " 2"
	}
	if hedged && (!number || strings.Contains(way, " ")) {
		return askBack(text, "how many mm?", near, c.examples()[0])
	}
	for i, t := range toks {
		if t.is("just") && isDirection(tokenAt(toks, i+1)) && !number {
			return askBack(text, "how many mm?", near, c.examples()[0])
		}
	}
	return nil
}

// toward reports whether a side and a number follow: how far it went that way, or
// where it stands.
func toward(toks []token) bool {
	i := 0
	for tokenAt(toks, i).is("to", "the", "about") {
		i++
	}
	sides := 0
	for isDirection(tokenAt(toks, i)) {
		i, sides = i+1, sides+1
	}
	return sides > 0 && tokenAt(toks, i).isNumber()
}

// isNegative reports whether a word turns what is said of a place round, or puts
// it in doubt.
func isNegative(t token) bool {
	switch classes[t.raw] {
	case "not", "cant", "hasnt", "nothing", "nearly":
		return true
	}
	return false
}

// looseAmount is what a width says among words that change nothing of it: "a
// circle about 10 mm across".
func looseAmount(toks []token) []token {
	drop := wordSet("wide across circle diameter in all total or total overall big around")
	var out []token
	for _, t := range tidy(toks, false) {
		if t.isNumber() || isUnit(t) || !drop[t.raw] && !fillers[t.raw] {
			out = append(out, t)
		}
	}
	return out
}

// edgePlace is a place at the edge of what is looked at.
func edgePlace(b bearing, c Context) (Said, *Error) {
	p := &parser{c: c}
	a, _, err := p.partOfRim(1, "at the edge")
	if err != nil {
		return Said{}, err
	}
	return p.place(b, a)
}
