package reading

import (
	"math"
	"slices"
	"strings"

	"spotward/optics"
	"spotward/session/event"
	"spotward/session/lex"
	"spotward/session/words"
)

// turnFillers are words beside what was turned that change nothing of it.
var turnFillers = lex.WordSet("turned did done gave made i it turn turns screw screws bolt key instead mistake accident oops whoops sorry only just of by so far in total went go one nut actually mistakenly told asked")

// looseTurn understands what was turned among words that change nothing of it,
// and an amount of the one screw that was told: "only 1/8".
func looseTurn(toks []lex.Token, c Context) (Said, bool, *lex.Error) {
	if len(c.cell().Labels) == 0 {
		return Said{}, false, nil
	}
	if err := c.inOrOut(toks); err != nil {
		return Said{}, false, err
	}
	toks = withoutInstead(toks, c)
	g := gistOf(toks, c)
	if c.Told != nil && len(c.Told.Moves) > 1 && g.has("both|each") && (g.has("turn") || slices.ContainsFunc(toks, func(t lex.Token) bool { return t.Shape == lex.ShapeFraction })) && !g.has("way|backwards|mistake|not|hasnt|cant") && g.sense(toks) == 0 {
		return Said{}, false, askBack(c.line, "which way did each go?", c.toldWays()...)
	}
	kept, amount, said := c.turnTokens(toks)
	if !amount {
		return Said{}, false, nil
	}
	if kept == nil || slices.ContainsFunc(toks, func(t lex.Token) bool { return t.Is("there") }) { // half way there
		return Said{}, false, nil
	}
	if said["each"] && g.names == 0 {
		return Said{}, false, askBack(c.line, "which way did each go?", c.toldWays()...)
	}
	if said["side"] {
		if g.names == 0 {
			return Said{}, false, nil
		}
		return Said{}, false, askBack(c.line, "clockwise or anticlockwise, as you face its head?", c.screwWays(g.label)...)
	}
	if g.names == 0 {
		return c.adjusted(toks, kept, said)
	}
	if said["more"] || said["too"] {
		return Said{}, false, askBack(c.line, "how far in all?", c.screwWays(g.label)...)
	}
	p := &parser{toks: kept, c: c}
	if said["back"] && g.sense(toks) == 0 {
		return c.turnedBack(p, toks, g.label)
	}
	return turnedForm(p)
}

// turnTokens returns the tokens of a line that say what was turned, or nil where
// another word is among them. amount: one of them is how far; said has the words
// that say that it was more, less or back.
func (c Context) turnTokens(toks []lex.Token) (kept []lex.Token, amount bool, said map[string]bool) {
	said = map[string]bool{}
	kept = []lex.Token{}
	for i, t := range toks {
		next := lex.TokenAt(toks, i+1)
		part, isPart := lex.PartWord(t)
		switch {
		case t.Is("counter", "anti") && next.Is("clockwise"):
			continue
		case t.Is("clockwise") && lex.TokenAt(toks, i-1).Is("counter", "anti"):
			t.Raw = "anticlockwise"
		case t.Is("degrees", "degree", "deg"):
			if n := len(kept); n > 0 && kept[n-1].IsNumber() {
				kept[n-1].Value /= 360
				kept[n-1].Shape = lex.ShapeFraction
				amount = true
			}
			continue
		case t.IsNumber() && t.Shape != lex.ShapeClock && t.Spread == 0:
			amount = amount || t.Shape == lex.ShapeFraction || next.Is("turn", "turns", "degrees", "deg", "half", "quarter", "quarters", "eighth", "eighths", "sixteenth", "sixteenths") ||
				labelled(lex.TokenAt(toks, i-1), c) != "" || t.Sign != 0
		case isPart, t.Is("sixteenth", "sixteenths", "touch"):
			amount = true
			_ = part
		case t.Is("full", "whole", "complete") && next.Is("turn"):
			t.Raw, t.Shape, t.Value = "1", lex.ShapeWhole, 1
			amount = true
		case t.Is("turn") && (len(kept) == 0 || !amount):
			continue
		case t.Is("turn", "turns"), senseWord(t) != 0, t.Is("take", "took", "up") && (t.Is("up") == lex.TokenAt(toks, i-1).Is("take", "took")), t.Is("lock", "screw", "then"):
		case labelled(t, c) != "" && isLabel(toks, i, c):
			if t.Raw == "a" {
				t.Upper = true
			}
		case t.Is("too", "over", "past", "overshot"):
			said["too"] = true
			continue
		case t.Is("more", "extra", "another", "further", "farther", "again"):
			said["more"] = true
			continue
		case t.Is("back"):
			said["back"] = true
			continue
		case t.Is("full", "whole") && next.Is("half", "quarter", "eighth"), t.Is("than"):
			continue
		case t.Is("only", "just", "merely", "less"):
			said["only"] = true
			continue
		case t.Is("turned", "did", "done", "gave", "made", "managed"):
			said["did"] = true
			continue
		case t.Is("far", "much"):
			continue
		case t.Is("both", "each", "all") && c.Told != nil && len(c.Told.Moves) > 1:
			said["each"] = true
			continue
		case t.Is("left", "right"):
			said["side"] = true
			continue
		case lex.Fillers[t.Raw], turnFillers[t.Raw]:
			if n := len(kept); n > 0 && t.Is("and") && i+1 < len(toks) {
				toks[i+1].Part = true
			}
			continue
		default:
			return nil, amount, said
		}
		t.Gap = true
		kept = append(kept, t)
	}
	return kept, amount, said
}

// senseWord returns the way a word of turning goes, or 0.
func senseWord(t lex.Token) float64 {
	return (&parser{toks: []lex.Token{t}}).sense()
}

// adjusted understands an amount of what was told, without its letter.
func (c Context) adjusted(toks, kept []lex.Token, said map[string]bool) (Said, bool, *lex.Error) {
	p := &parser{toks: kept, c: c}
	sense := p.sense()
	p.words("lock")
	a, ok := p.turns()
	if s := p.sense(); s != 0 {
		sense = s
	}
	if !ok || !p.done() || !a.sure || a.turns == 0 || math.Abs(a.turns) > event.MaxTurns {
		return Said{}, false, nil
	}
	if c.Told == nil {
		return Said{}, false, nil
	}
	text := c.line
	m := c.onlyTold()
	if m == nil {
		return Said{}, false, c.askOfWhat(text, a)
	}
	of := func(turns float64) string {
		t := m.Turn
		t.Turns = turns
		return turnText(t)
	}
	told := math.Abs(m.Turns)
	way := math.Copysign(1, m.Turns)
	switch {
	case said["too"], said["more"]:
		return Said{}, false, askBack(text, "how far in all?", of(way*(told+a.turns)), of(way*a.turns))
	case said["back"]:
		return Said{}, false, askBack(text, "how far in all?", of(way*math.Abs(told-a.turns)+0), of(-way*a.turns))
	case !said["only"] && !said["did"] && sense == 0:
		return Said{}, false, c.askOfWhat(text, a)
	case len(kept) == 1 && kept[0].Is("half") && told != 0.5:
		return Said{}, false, askBack(text, "half of what was told, or half a turn?", of(way*told/2), of(way/2))
	}
	t := m.Turn
	t.Turns = way * a.turns
	if sense != 0 {
		t.Turns = sense * a.turns
	}
	return Said{Kind: SaidTurned, Face: c.Face, Turned: []optics.Turn{t}, echo: "turned: " + words.MoveWords(t)}, true, nil
}

// turnedBack understands "C 1/4 back": against what was told.
func (c Context) turnedBack(p *parser, toks []lex.Token, label string) (Said, bool, *lex.Error) {
	m := c.onlyTold()
	if m == nil || !c.onlyToldIs(label) {
		return Said{}, false, askBack(c.line, "which way?", c.screwWays(label)...)
	}
	p.screw()
	a, ok := p.turns()
	if !ok || !p.done() || a.signed || a.turns == 0 || a.turns > event.MaxTurns {
		return Said{}, false, nil
	}
	t := m.Turn
	t.Turns = -math.Copysign(a.turns, m.Turns)
	return Said{Kind: SaidTurned, Face: c.Face, Turned: []optics.Turn{t}, echo: "turned: " + words.MoveWords(t)}, true, nil
}

// toldWays returns the told moves as one would type them, in one line.
func (c Context) toldWays() []string {
	var turns []string
	for _, m := range c.Told.Moves {
		turns = append(turns, turnText(m.Turn))
	}
	return []string{strings.Join(turns, " "), "other way"}
}

// screwWays returns what was done with a screw, as one may type it: of the one that
// was told where none is named.
func (c Context) screwWays(label string) []string {
	return append(c.amountWays(label, 0, "1/8"), "other way", "stuck "+c.screwName(label))
}

// amountWays returns turns of a screw as one may type them, first the way that it
// went or was to go; where that is not known, both.
func (c Context) amountWays(label string, way float64, amounts ...string) (ways []string) {
	signs := []string{" +", " -"}
	if way < 0 || way == 0 && c.toldWay(label) < 0 {
		signs = []string{" -", " +"}
	}
	if way != 0 || len(amounts) > 1 {
		signs = signs[:1]
	}
	for _, sign := range signs {
		for _, a := range amounts {
			ways = append(ways, c.screwName(label)+sign+a)
		}
	}
	return ways
}

// toldWay returns the turns of the move that was told of a screw or its lock: of the
// first one where none is named; 0 = none.
func (c Context) toldWay(label string) float64 {
	if c.Told == nil {
		return 0
	}
	for _, m := range c.Told.Moves {
		if label == "" || strings.EqualFold(m.Screw+m.Lock, label) {
			return m.Turns
		}
	}
	return 0
}

// troubleWays returns what a screw may do to a hand, as one may type it.
func (c Context) troubleWays(label string) []string {
	name := c.screwName(label)
	return []string{"stuck " + name, "free " + name, "end " + name, "slipped " + name}
}

// screwName returns a screw as it is typed: the one that was told where none is
// named, with "lock" before it where nothing but locks were told.
func (c Context) screwName(label string) string {
	m := c.onlyTold()
	switch ls := c.cell().Labels; {
	case label == "" && m != nil && m.Lock != "":
		return "lock " + m.Lock
	case label == "" && m != nil:
		label = m.Screw
	case label == "" && c.Told != nil && len(c.Told.Moves) > 0 && c.Told.Moves[0].Screw != "":
		label = c.Told.Moves[0].Screw
	case label == "" && len(ls) > 0:
		label = ls[0]
	case label == "":
		label = "A"
	}
	if c.lockMayBeMeant(label) {
		return "lock " + label
	}
	return label
}
