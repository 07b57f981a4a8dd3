package reading

import (
	"strings"

	"spotward/session/event"
	"spotward/session/lex"
)

// screwName is a screw or the lock beside it.
type screwName struct {
	label string
	lock  bool
	said  bool // "lock" or "screw" stood before it
	doubt bool // it may be the article: "A quarter"
}

// screw reads the label of a screw of the mirror in hand, or "lock" and one.
func (p *parser) screw() (screwName, bool) {
	from := p.at
	var n screwName
	n.lock = p.words("lock")
	n.said = n.lock || p.words("screw")
	cell := p.c.cell()
	for i, l := range cell.Labels {
		if n.lock && i >= cell.Locks {
			break
		}
		t := p.peek(0)
		if !p.words(strings.ToLower(l)) {
			continue
		}
		n.label = l
		if !n.said && t.Raw == "a" {
			article, sure := p.article(t)
			if article && sure {
				break
			}
			n.doubt = !sure
		}
		return n, true
	}
	p.at = from
	return n, false
}

// article reports whether the "a" that was just passed is an article rather
// than screw A, and whether that is sure. It is the screw where it stands as a
// capital within the line, where its sense or what it did follows, and where
// another screw is named beside it.
func (p *parser) article(t lex.Token) (article, sure bool) {
	next := p.peek(0)
	switch {
	case t.Upper && p.at > 1, next.Sign != 0, next.Is("a"), p.namesOthers():
		return false, true
	case p.startsSense(), next.Shape == lex.ShapeWord && !p.startsAmount():
		return false, true
	case p.c.onlyToldIs("A"):
		return false, true // the same either way
	case next.Shape == lex.ShapeWord: // a quarter, a touch
		return true, !t.Upper
	case p.saysTurn():
		return true, !t.Upper
	}
	return false, t.Upper || p.c.onlyTold() == nil
}

// namesOthers reports whether the line names a screw beside A.
func (p *parser) namesOthers() bool {
	for _, t := range p.toks {
		for _, l := range p.c.cell().Labels {
			if l != "A" && t.Is(strings.ToLower(l)) {
				return true
			}
		}
	}
	return false
}

// saysTurn reports whether the line says "turn": an amount of turning then, and
// no letter.
func (p *parser) saysTurn() bool {
	for _, t := range p.toks {
		if t.Is("turn", "turns") {
			return true
		}
	}
	return false
}

// startsSense reports whether a word for the way a screw goes comes next.
func (p *parser) startsSense() bool {
	from := p.at
	defer func() { p.at = from }()
	return p.sense() != 0
}

// startsAmount reports whether words for a part of a turn come next.
func (p *parser) startsAmount() bool {
	from := p.at
	defer func() { p.at = from }()
	_, ok := p.partOfTurn()
	return ok || p.words("turn") || p.peek(0).Is("full", "whole", "bit", "little", "hair", "tad")
}

// onlyTold returns the one move that was told, or nil where there is none or
// more than one.
func (c Context) onlyTold() *event.ToldMove {
	if c.Told == nil || len(c.Told.Moves) != 1 {
		return nil
	}
	return &c.Told.Moves[0]
}

// onlyToldIs reports whether the one move that was told is of that screw.
func (c Context) onlyToldIs(label string) bool {
	m := c.onlyTold()
	return m != nil && m.Lock == "" && strings.EqualFold(m.Screw, label)
}

// bareLetter asks for a word before a letter where locks are told: the lock and
// the screw beside it have the same letter.
func (p *parser) bareLetter(n screwName, rest string) *lex.Error {
	if n.said || n.label == "" || !p.c.lockMayBeMeant(n.label) {
		return nil
	}
	l := n.label
	return &lex.Error{
		Asks: true, Part: l, Why: "the lock or the adjusting screw?",
		Examples: []string{"lock " + l + " " + rest, "screw " + l + " " + rest},
	}
}

// lockMayBeMeant reports whether a bare letter may be that of a lock: the lock is
// told, or nothing but locks.
func (c Context) lockMayBeMeant(label string) bool {
	if c.Told == nil || len(c.Told.Moves) == 0 {
		return false
	}
	all := true
	for _, m := range c.Told.Moves {
		if strings.EqualFold(m.Lock, label) {
			return true
		}
		all = all && m.Lock != ""
	}
	return all
}

// onlyItsLock reports whether the lock of that letter is told, and not the screw
// beside it: what is said of the letter is said of the lock.
func (c Context) onlyItsLock(label string) bool {
	lock := false
	if c.Told != nil {
		for _, m := range c.Told.Moves {
			if strings.EqualFold(m.Screw, label) {
				return false
			}
			lock = lock || label != "" && strings.EqualFold(m.Lock, label)
		}
	}
	return lock
}

// wrongIsTold asks which screw was turned where the one that is named as the
// wrong one is the one that was told.
func (p *parser) wrongIsTold(label string) *lex.Error {
	err := &lex.Error{Asks: true, Part: label, Why: label + " was the one to turn: which one was turned?"}
	for _, l := range p.c.cell().Labels {
		if l != label {
			err.Examples = append(err.Examples, "wrong "+l)
		}
	}
	return err
}
