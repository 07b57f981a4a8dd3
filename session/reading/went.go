package reading

import (
	"math"
	"strings"

	"spotward/optics"
	"spotward/session/lex"
)

// wentForm reads which way the spot set off as the told screw was touched: "went
// 7", "went C 7", or a clock position after a minus sign, which a keypad has:
// "-7".
func wentForm(p *parser) (Said, bool, *lex.Error) {
	if p.c.Told == nil || len(p.c.Told.Moves) == 0 {
		return Said{}, false, nil
	}
	s := Said{Kind: SaidWent, Face: p.c.Face}
	switch {
	case p.words("went") || p.words("it went") || p.words("set off"):
		s.Label = p.toldScrew()
	case len(p.toks) == 1 && p.peek(0).Sign < 0 && (p.peek(0).Shape == lex.ShapeWhole || p.peek(0).Shape == lex.ShapeClock):
		p.toks = append([]lex.Token(nil), p.toks...)
		p.toks[0].Sign, p.toks[0].Value, p.toks[0].Raw = 0, math.Abs(p.toks[0].Value), strings.TrimPrefix(p.toks[0].Raw, "-")
	default:
		return Said{}, false, nil
	}
	p.words("to")
	p.words("toward")
	if p.c.Face == optics.FaceTarget && len(p.toks)-p.at == 1 && p.words("down") {
		return Said{}, false, askBack(p.c.line, "down the hole, or downward on the face?", "home", "went 6")
	}
	b, ok, err := p.bearing()
	if err != nil {
		return Said{}, false, err
	}
	if !ok || !p.done() {
		return Said{}, false, nil
	}
	s.At = b.unit
	s.echo = "set off toward " + b.words
	if s.Label != "" {
		s.echo = s.Label + ": it " + s.echo
	}
	return s, true, nil
}

// onItsWay are the words for a spot that moves, beside the way that it goes.
var onItsWay = lex.WordSet("goes going moves moving heads heading started starts starting")

// looseWent understands which way the spot moves, in other words: "going left".
func looseWent(toks []lex.Token, c Context) (Said, bool, *lex.Error) {
	if c.Told == nil || len(c.Told.Moves) == 0 {
		return Said{}, false, nil
	}
	i := 0
	for lex.Fillers[lex.TokenAt(toks, i).Raw] || lex.TokenAt(toks, i).Is("spot", "dot") {
		i++
	}
	if !onItsWay[lex.TokenAt(toks, i).Raw] {
		return Said{}, false, nil
	}
	i++
	for lex.TokenAt(toks, i).Is("off", "out", "for", "the", "to", "over") {
		i++
	}
	if i >= len(toks) {
		return Said{}, false, nil
	}
	p := &parser{toks: dropFillers(append([]lex.Token{{Raw: "went"}}, toks[i:]...)), c: c}
	return wentForm(p)
}

// toldScrew steps over a told screw's letter that comes next and returns it, ""
// for none.
func (p *parser) toldScrew() string {
	for _, m := range p.c.Told.Moves {
		if m.Screw != "" && p.words(strings.ToLower(m.Screw)) {
			return m.Screw
		}
	}
	return ""
}
