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

// clause is one screw and how far it was turned, as typed.
type clause struct {
	turn  optics.Turn
	said  string  // the screw and the amount, without a sign
	sense float64 // of a word; 0 = none
	words int     // how many such words there are
	sign  bool    // or it has a sign
}

// turnedForm reads what was really turned: "B -1/4", "tighten B 1/8 ease A 1/8".
// The words for the way may lead or trail; where the line can be read both ways
// and they differ, it is asked back.
func turnedForm(p *parser) (Said, bool, *lex.Error) {
	leading, err := p.clauses(false)
	end := p.at
	p.at = 0
	trailing, trailErr := p.clauses(true)
	switch {
	case err != nil && trailErr != nil:
		p.at = end
		return Said{}, false, err
	case err != nil:
		leading = trailing
	case trailErr == nil && len(leading) > 0 && differ(leading, trailing):
		return Said{}, false, p.whoseSense(leading, trailing)
	}
	if len(leading) == 0 {
		return Said{}, false, nil
	}
	if err := p.wayLeftOpen(leading); err != nil {
		return Said{}, false, err
	}
	said := Said{Kind: SaidTurned, Face: p.c.Face}
	var text []string
	for _, c := range leading {
		said.Turned = append(said.Turned, c.turn)
		text = append(text, words.MoveWords(c.turn))
	}
	said.echo = "turned: " + strings.Join(text, ", then ")
	return said, true, nil
}

// clauses reads the whole line as screws that were turned. A word for the way
// between two of them belongs to the one before it where trail is set, else to
// the one after it.
func (p *parser) clauses(trail bool) ([]clause, *lex.Error) {
	var all []clause
	for !p.done() {
		p.words("then")
		c, ok, err := p.clause(trail)
		if err != nil {
			return nil, err
		}
		if !ok {
			if len(all) > 0 {
				return nil, p.leftover()
			}
			return nil, nil
		}
		all = append(all, c)
	}
	return all, nil
}

func differ(a, b []clause) bool {
	return !slices.EqualFunc(a, b, func(x, y clause) bool { return x.turn == y.turn })
}

// whoseSense asks which screw a word for the way was said of.
func (p *parser) whoseSense(a, b []clause) *lex.Error {
	return &lex.Error{Asks: true, Part: p.restFrom(0), Why: "which screw went which way?", Examples: []string{signedText(a), signedText(b)}}
}

// wayLeftOpen asks for the way of a screw that has none of its own after one
// that was eased.
func (p *parser) wayLeftOpen(cs []clause) *lex.Error {
	eased := false
	for i, c := range cs {
		if eased && c.sense == 0 && !c.sign {
			other := slices.Clone(cs)
			other[i].turn.Turns = -c.turn.Turns
			return &lex.Error{Asks: true, Part: c.said, Why: "which way?", Examples: []string{signedText(other), signedText(cs)}}
		}
		eased = eased || c.sense < 0
	}
	return nil
}

// signedText is what one would type for these turns, with signs.
func signedText(cs []clause) string {
	words := make([]string, len(cs))
	for i, c := range cs {
		words[i] = turnText(c.turn)
	}
	return strings.Join(words, " ")
}

// turnText is what one would type for a turn: "lock B -1/4".
func turnText(t optics.Turn) string {
	name, sign := t.Screw, "+"
	if t.Lock != "" {
		name = "lock " + t.Lock
	}
	if t.Turns < 0 {
		sign = "-"
	}
	return name + " " + sign + words.TurnsText(t.Turns)
}

// clause reads one screw and how far it was turned.
func (p *parser) clause(trail bool) (clause, bool, *lex.Error) {
	from := p.at
	led := p.sense()
	name, ok := p.screw()
	if !ok {
		err := p.strangeTurn(from, led != 0)
		p.at = from
		return clause{}, false, err
	}
	senses := []float64{led, p.sense()}
	a, ok := p.turns()
	ok = ok && !p.peek(0).Is("to", "past", "after") // a quarter to 5
	if ok {
		senses = append(senses, p.senseAfter(trail && led == 0))
	}
	sense, text := 0., 0
	for _, s := range senses {
		if s != 0 {
			sense, text = s, text+1
		}
	}
	if _, side := directionLetter(lex.Token{Raw: strings.ToLower(name.label)}); !ok || side && !a.sure && sense == 0 {
		p.at = from
		return clause{}, false, nil
	}
	t := optics.Turn{Mirror: p.c.Mirror, Turns: a.turns}
	if name.lock {
		t.Lock = name.label
	} else {
		t.Screw = name.label
	}
	if sense != 0 {
		t.Turns *= sense
	}
	c := clause{turn: t, said: name.label + " " + words.TurnsText(a.turns), sense: sense, words: text, sign: a.signed}
	return c, true, p.senseless(c, a, name)
}

// senseAfter reads a word for the way after an amount. Where another screw
// follows it, it is that one's unless a comma parts them, or trail says so.
func (p *parser) senseAfter(trail bool) float64 {
	from := p.at
	sense := p.sense()
	if sense == 0 || p.done() {
		return sense
	}
	parted := p.peek(0).Part
	p.words("then")
	at := p.at
	_, follows := p.screw()
	p.at = at
	if follows && !parted && (p.toks[from].Part || !trail) {
		p.at = from
		return 0
	}
	return sense
}

// senseless refuses a clause that makes no sense, or more than one.
func (p *parser) senseless(c clause, a typedTurn, n screwName) *lex.Error {
	t := c.turn
	way := func(turns float64) string { return turnText(optics.Turn{Screw: t.Screw, Lock: t.Lock, Turns: turns}) }
	both := []string{way(-1), way(1)}
	if a.turns != 0 && math.Abs(a.turns) <= event.MaxTurns {
		both = []string{way(-math.Abs(a.turns)), way(math.Abs(a.turns))}
	}
	switch {
	case a.turns == 0:
		return &lex.Error{Part: c.said, Why: "a screw that was not turned is: not done"}
	case math.Abs(a.turns) > event.MaxTurns:
		return &lex.Error{Part: c.said, Why: "more turns than any screw here has"}
	case a.signed && c.sense != 0 || c.words > 1:
		return &lex.Error{Part: c.said, Why: "a sign or one word for the way it went, not both", Examples: both}
	case n.doubt:
		return p.askArticle(c)
	}
	if !n.said && p.c.lockMayBeMeant(n.label) {
		signed := strings.TrimPrefix(turnText(optics.Turn{Screw: n.label, Turns: t.Turns}), n.label+" ")
		return p.bareLetter(n, signed)
	}
	switch {
	case c.sense == 0 && !a.signed && p.c.toldEased(t):
		return &lex.Error{Asks: true, Part: c.said, Why: "which way? it was to be eased", Examples: both}
	case c.sense == 0 && !a.sure && a.turns == math.Trunc(a.turns):
		return &lex.Error{Asks: true, Part: c.said, Why: "whole turns, or a clock position?", Examples: []string{way(a.turns), p.c.atHour(a.turns)}}
	}
	return nil
}

// askArticle asks whether "a" was screw A.
func (p *parser) askArticle(c clause) *lex.Error {
	err := &lex.Error{Asks: true, Part: p.restFrom(0), Why: "screw A?", Examples: []string{turnText(c.turn), p.c.examples()[0]}}
	if m := p.c.onlyTold(); m != nil {
		told := m.Turn
		told.Turns = math.Copysign(c.turn.Turns, m.Turns)
		err.Why = "of screw A, or of what was told?"
		err.Examples[1] = turnText(told)
	}
	return err
}

// bareTurnForm asks of which screw an amount of turning alone was.
func bareTurnForm(p *parser) (Said, bool, *lex.Error) {
	n := p.peek(0)
	a, ok := p.turns()
	if !ok || !p.done() || !a.sure || a.turns == 0 || math.Abs(a.turns) > event.MaxTurns {
		return Said{}, false, nil
	}
	if n.Shape == lex.ShapeWhole && n.Sign == 0 && p.peek(-1).Shape == lex.ShapeFraction && !p.saysTurn() {
		return Said{}, false, nil // 4 1/2 is half of the way to the edge
	}
	if whole := n.Shape == lex.ShapeWhole || n.Shape == lex.ShapeDecimal; whole && n.Sign != 0 && !p.saysTurn() {
		return Said{}, false, nil
	}
	if (p.c.Told == nil || len(p.c.Told.Moves) == 0) && n.Shape != lex.ShapeWord {
		return Said{}, false, nil
	}
	return Said{}, false, p.c.askOfWhat(p.restFrom(0), a)
}

// askOfWhat asks of what an amount alone was: of a screw that was told, or of
// the way to the edge.
func (c Context) askOfWhat(part string, a typedTurn) *lex.Error {
	err := &lex.Error{Asks: true, Part: part, Why: "of what?"}
	if c.Told == nil {
		return err
	}
	for _, m := range c.Told.Moves {
		told := m.Turn
		told.Turns = math.Copysign(a.turns, m.Turns)
		if a.signed {
			told.Turns = a.turns
		}
		err.Examples = append(err.Examples, turnText(told))
	}
	if err.Why = "of which screw?"; len(c.Told.Moves) == 1 {
		err.Why = "a turn so far?"
		err.Examples = append(err.Examples, c.examples()[0])
	}
	return err
}

// strangeTurn refuses a letter with turns after it that no screw has.
func (p *parser) strangeTurn(from int, sensed bool) *lex.Error {
	named := p.words("lock") || p.words("screw")
	letter, amount := p.peek(0), p.peek(1)
	known := slices.ContainsFunc(p.c.cell().Labels, func(l string) bool { return letter.Is(strings.ToLower(l)) })
	if letter.Shape != lex.ShapeWord || len(letter.Raw) != 1 || known && !named {
		return nil
	}
	turns := amount.Shape == lex.ShapeFraction || amount.Sign != 0
	if _, side := directionLetter(letter); side {
		turns = turns && len(p.toks) == from+2
	}
	if named || sensed || turns {
		return p.noScrew(letter)
	}
	return nil
}
