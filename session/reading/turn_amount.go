package reading

import (
	"strings"

	"spotward/optics"
	"spotward/session/lex"
)

// sense reads a word for the way a screw goes: +1 clockwise, −1
// anticlockwise, 0 none.
func (p *parser) sense() float64 {
	for _, w := range []string{"tighten", "tightened", "take up", "took up", "tighter", "tightening", "clockwise", "cw", "snugged", "nipped"} {
		if p.words(w) {
			return 1
		}
	}
	for _, w := range []string{"ease", "eased", "loosen", "loosened", "looser", "slacken", "slackened", "slacked", "unscrew", "unscrewed", "undo", "undid", "undone", "untightened", "unlocked", "loosening", "easing", "anticlockwise", "counterclockwise", "counter clockwise", "anti clockwise", "acw", "ccw"} {
		if p.words(w) {
			return -1
		}
	}
	return 0
}

// touchTurns is what a hand does that only just moves a key. This program's own.
const touchTurns = 1. / 32

// typedTurn is how far a screw was turned, as typed.
type typedTurn struct {
	turns  float64
	signed bool
	sure   bool // it cannot be a distance
}

// turns reads 1/4, -1/4, 1 1/4, 0.2, "a quarter", "three eighths", "half a
// turn", "a touch".
func (p *parser) turns() (typedTurn, bool) {
	p.words("a")
	n := p.peek(0)
	a := typedTurn{turns: 1, signed: n.Sign != 0}
	known := n.Shape != lex.ShapeWord && n.Shape != lex.ShapeClock
	if known {
		p.at++
		a.turns, a.sure = n.Value, a.signed || n.Shape != lex.ShapeWhole && n.Shape != lex.ShapeDecimal
		if f := p.peek(0); n.Shape == lex.ShapeWhole && f.Shape == lex.ShapeFraction && f.Sign == 0 {
			p.at++
			a.sure = true
			a.turns += f.Value
			if n.Sign < 0 {
				a.turns = n.Value - f.Value
			}
		}
	}
	part, ok := p.partOfTurn()
	if ok {
		a.turns *= part
	}
	if p.words("turn") || (known || ok) && p.words("turns") {
		ok = true
	}
	a.sure = a.sure || ok
	return a, known || ok
}

// partOfTurn reads a word for a part of a turn.
func (p *parser) partOfTurn() (float64, bool) {
	for _, w := range []struct {
		words string
		turns float64
	}{
		{"half a touch", touchTurns / 2}, {"half", 1. / 2}, {"quarter", 1. / 4}, {"third", 1. / 3}, {"thirds", 1. / 3}, {"eighth", 1. / 8}, {"sixteenth", 1. / 16},
		{"quarters", 1. / 4}, {"eighths", 1. / 8}, {"sixteenths", 1. / 16}, {"touch", touchTurns},
	} {
		if p.words(w.words) {
			p.words("a")
			return w.turns, true
		}
	}
	return 0, false
}

// toldEased reports whether t names a screw that was told to be eased: the
// same amount without a sign then leaves the sense open.
func (c Context) toldEased(t optics.Turn) bool {
	if c.Told == nil {
		return false
	}
	for _, m := range c.Told.Moves {
		if strings.EqualFold(m.Screw, t.Screw) && strings.EqualFold(m.Lock, t.Lock) && m.Turns < 0 {
			return true
		}
	}
	return false
}
