package reading

import (
	"slices"
	"strings"

	"spotward/session/lex"
	"spotward/session/words"
)

// loosePlace understands a place among words that change nothing of it: "it's
// about 12 mm off at 4:30".
func loosePlace(toks []lex.Token, c Context) (Said, bool, *lex.Error) {
	if err := c.noPlace(toks); err != nil {
		return Said{}, false, err
	}
	toks, beyond := c.outsideOf(c.withoutComment(toks))
	toks, err := withoutFrom(toks, c)
	if err != nil {
		return Said{}, false, err
	}
	kept, inside := toks[:0:0], ""
	for i, t := range toks {
		switch {
		case t.IsNumber(), lex.IsUnit(t), isDirection(t), t.Is("oclock", "h", "edge", "rim", "tube", "half", "quarter", "past", "after"):
		case t.Is("o") && lex.TokenAt(toks, i+1).Is("clock"):
		case t.Is("clock") && lex.TokenAt(toks, i-1).Is("o"):
		case t.Is("focuser") && slanting(kept):
		case t.Is("toward", "towards", "away") && !isDirection(nextOf(toks, i)) && !lex.TokenAt(toks, i+1).IsNumber() && lex.TokenAt(toks, i+1).Raw != "" && !lex.TokenAt(toks, i+1).Is("at", "from"):
		case t.Is("toward", "towards"), t.Is("on", "in") && (nextIs(toks, i, "direction") || isDirection(nextOf(toks, i)) || toks[len(toks)-1].Is("direction") && nextOf(toks, i).IsNumber()):
			continue
		case t.Is("off", "out", "outside", "over", "past", "near", "beyond", "close") && nextIs(toks, i, "edge", "rim"):
			return Said{}, false, nil
		case t.Is("at") && (len(kept) == 0 || lex.TokenAt(kept, len(kept)-1).IsNumber() || lex.IsUnit(lex.TokenAt(kept, len(kept)-1))):
		case t.Is("to") && lex.TokenAt(toks, i-1).Is("quarter"):
		case t.Is("in", "inside", "out", "outside") && (t.Part || lex.TokenAt(toks, i+1).Part):
			inside = t.Raw
			continue
		case t.Is("-") && lex.TokenAt(toks, i-1).Shape == lex.ShapeClock:
			continue
		case counted[t.Raw] && lex.TokenAt(toks, i-1).PlainNumber():
			return Said{}, false, nil // as far as two mirrors: no unit
		case t.Is("=", "x") && lex.TokenAt(toks, i-1).IsNumber() && lex.TokenAt(toks, i+1).IsNumber():
			continue
		case lex.Fillers[t.Raw], lex.PlaceFillers[t.Raw], lex.Classes[t.Raw] == "bit", lex.Classes[t.Raw] == "move", lex.Classes[t.Raw] == "went", lex.Classes[t.Raw] == "jumped":
			continue
		default:
			return Said{}, false, nil
		}
		t.Gap = true
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

// nextOf returns the next word but an article.
func nextOf(toks []lex.Token, i int) lex.Token {
	if lex.TokenAt(toks, i+1).Is("the") {
		i++
	}
	return lex.TokenAt(toks, i+1)
}

// nextIs reports whether the next word but articles is one of a list.
func nextIs(toks []lex.Token, i int, list ...string) bool {
	for i++; lex.TokenAt(toks, i).Is("the", "its", "very", "to"); i++ {
	}
	return lex.TokenAt(toks, i).Is(list...)
}

// counted are fillers that could be counted in: beside a number they are none.
var counted = lex.WordSet("mirror mirrors primary spot spots dot dots point light side corner")

// placeForms reads tokens that are a place and nothing else.
func placeForms(toks []lex.Token, c Context) (Said, bool, *lex.Error) {
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
func slanting(kept []lex.Token) bool {
	return len(kept) > 0 && kept[len(kept)-1].Is("toward", "towards", "away")
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
func (c Context) outsideOf(toks []lex.Token) ([]lex.Token, bool) {
	for i, t := range toks {
		if !t.Is("outside", "beyond") && !(t.Is("out") && lex.TokenAt(toks, i+1).Is("of")) {
			continue
		}
		j := i + 1
		for lex.TokenAt(toks, j).Is("of", "the", "edge") {
			j++
		}
		if lex.TokenAt(toks, j).Is("ring", "hole") && i > 0 {
			return append(slices.Clone(toks[:i]), toks[j+1:]...), true
		}
	}
	return toks, false
}

// beyond puts a place as far from the ring's or the hole's rim as it was read from
// its middle.
func (c Context) beyond(s Said) (Said, bool, *lex.Error) {
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
var refWords = lex.WordSet("first the middle centre center hole holes ring rings it mirror mirrors card tube drawtube mouth bright brighter one other outgoing spot of its target face exact primary")

// withoutFrom leaves out what a place is measured from: "from the middle", "of
// the hole". From the edge is not how it is measured.
func withoutFrom(toks []lex.Token, c Context) ([]lex.Token, *lex.Error) {
	var out []lex.Token
	for i := 0; i < len(toks); i++ {
		t := toks[i]
		off := t.Is("off", "out", "away") && lex.TokenAt(toks, i+1).Is("the", "from", "of", "centre", "center", "middle") && len(out) > 0
		sided := len(out) > 0 && (isDirection(out[len(out)-1]) || out[len(out)-1].Is("side"))
		of := sided && (t.Is("of", "centre", "center", "middle", "hole") || t.Is("the") && refWords[lex.TokenAt(toks, i+1).Raw])
		if !t.Is("from") && !of && !off {
			out = append(out, t)
			continue
		}
		j := i + 1
		for lex.TokenAt(toks, j).Is("from", "of") || refWords[lex.TokenAt(toks, j).Raw] && !lex.TokenAt(toks, j).IsNumber() {
			j++
		}
		if lex.TokenAt(toks, j).Is("edge", "rim", "wall", "lip", "side") {
			return nil, askBack(lineText(toks[i:min(j+1, len(toks))]), "how far "+words.FromWords(c.Face)+"?", c.examples()[0])
		}
		if j == i+1 && !(of && refWords[t.Raw]) || (off && toks[j-1].Is("ring", "rings", "hole") && t.Is("off", "out")) {
			out = append(out, t)
			continue
		}
		if j < len(toks) {
			toks[j].Part = true
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
func (c Context) noPlace(toks []lex.Token) *lex.Error {
	text := c.line
	way, hedged, number := "", false, false
	for i, t := range toks {
		next := lex.TokenAt(toks, i+1)
		switch {
		case lex.Negative(t):
			return nil
		case isDirection(t):
			way = strings.TrimSpace(way + " " + t.Raw)
		case t.IsNumber() && !next.Is("oclock", "o", "h"):
			number = true
		case t.Is("or"):
			return askBack(text, "which of the two?", c.examples()...)
		case t.Is("to") && lex.TokenAt(toks, i-1).IsNumber() && next.IsNumber() && !lex.TokenAt(toks, i-1).Is("quarter"):
			return askBack(text, "from one to the other?", c.examples()...)
		case lex.Classes[t.Raw] == "bit" && lex.TokenAt(toks, i-1).Is("a") && lex.TokenAt(toks, i-2).Is("and") && lex.IsUnit(lex.TokenAt(toks, i-3)): // one ring and a bit
			return askBack(text, "how many mm?", c.examples()[0])
		case lex.Classes[t.Raw] == "bit":
			hedged = true
		case compass[t.Raw] != "":
			return askBack(t.Raw, "as on a dial, 12 straight up?", compass[t.Raw]+" 12", "4:30 12")
		case t.Is("degrees", "deg", "degree"):
			return askBack(lex.TokenAt(toks, i-1).Raw+" "+t.Raw, "at which hour of a dial, 12 straight up?", c.examples()[0])
		case (lex.Classes[t.Raw] == "move" || t.Is("jumped")) && next.IsNumber() && (lex.IsUnit(lex.TokenAt(toks, i+2)) || isDirection(lex.TokenAt(toks, i+2))),
			(lex.Classes[t.Raw] == "move" || lex.Classes[t.Raw] == "went") && toward(toks[i+1:]):
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
		if t.Is("just") && isDirection(lex.TokenAt(toks, i+1)) && !number {
			return askBack(text, "how many mm?", near, c.examples()[0])
		}
	}
	return nil
}

// toward reports whether a side and a number follow: how far it went that way, or
// where it stands.
func toward(toks []lex.Token) bool {
	i := 0
	for lex.TokenAt(toks, i).Is("to", "the", "about") {
		i++
	}
	sides := 0
	for isDirection(lex.TokenAt(toks, i)) {
		i, sides = i+1, sides+1
	}
	return sides > 0 && lex.TokenAt(toks, i).IsNumber()
}

// looseAmount is what a width says among words that change nothing of it: "a
// circle about 10 mm across".
func looseAmount(toks []lex.Token) []lex.Token {
	drop := lex.WordSet("wobbles moves makes swings wanders dia diam width wide across circle diameter in all total or total overall big around")
	var out []lex.Token
	for _, t := range lex.Tidy(toks, false) {
		if t.IsNumber() || lex.IsUnit(t) || !drop[t.Raw] && !lex.Fillers[t.Raw] {
			out = append(out, t)
		}
	}
	return out
}

// edgePlace is a place at the edge of what is looked at.
func edgePlace(b bearing, c Context) (Said, *lex.Error) {
	p := &parser{c: c}
	a, _, err := p.partOfRim(1, "at the edge")
	if err != nil {
		return Said{}, err
	}
	return p.place(b, a)
}
