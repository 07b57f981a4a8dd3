package session

import (
	"math"
	"strings"

	"spotward/optics"
)

// talk is what people say of a screw, or of what they did with it.
type talk struct {
	phrase string
	kind   SaidKind
	is     Says
	echo   string // after the screw's name
}

// screwTalk is what can be said of a screw or a lock.
func screwTalk() []talk {
	return []talk{
		{"stuck", SaidScrew, SaysStuck, "is stuck"},
		{"blocked", SaidScrew, SaysStuck, "is stuck"},
		{"free", SaidScrew, SaysFree, "turns free"},
		{"loose", SaidScrew, SaysFree, "turns free"},
		{"end", SaidScrew, SaysEnd, "is at its end"},
		{"at end", SaidScrew, SaysEnd, "is at its end"},
		{"slipped", SaidScrew, SaysSlipped, "slipped"},
		{"sticky", SaidScrew, SaysSticky, "is sticky"},
		{"stripped", SaidScrew, SaysStripped, "is stripped"},
		{"other way", SaidScrew, SaysOtherWay, "was turned the other way"},
		{"wrong way", SaidScrew, SaysOtherWay, "was turned the other way"},
		{"not done", SaidScrew, SaysNotDone, "was not turned"},
		{"not turned", SaidScrew, SaysUnturned, "was not turned before that look"},
		{"wrong", SaidWrong, "", "was turned in place of the one told"},
		{"wrong screw", SaidWrong, "", "was turned in place of the one told"},
	}
}

// screwForm reads what a screw said: "stuck B", "B is stuck", "other way".
func screwForm(p *parser) (Said, bool, *ReadingError) {
	all := screwTalk()
	name, before := p.screw()
	i := p.longest(len(all), func(i int) string { return all[i].phrase })
	if i < 0 {
		return Said{}, false, nil
	}
	if !before && !p.done() {
		ok := false
		if name, ok = p.screw(); !ok {
			return Said{}, false, p.noScrew(p.peek(0))
		}
	}
	if !p.done() {
		return Said{}, false, p.leftover()
	}
	said := Said{Kind: all[i].kind, Is: all[i].is, Face: p.c.Face, Label: name.label, Lock: name.lock}
	if name.label == "" {
		if err := p.onlyTold(&said, all[i]); err != nil {
			return Said{}, false, err
		}
	}
	said.echo = strings.TrimSpace(said.screwWords() + " " + all[i].echo)
	return said, true, nil
}

// onlyTold fills in the screw that was told, when only one can be meant. What
// was done with all of them needs no name.
func (p *parser) onlyTold(said *Said, t talk) *ReadingError {
	told := p.c.Told
	if said.Kind == SaidScrew && t.is != SaysUnturned && told != nil && len(told.Moves) == 1 {
		said.Label, said.Lock = told.Moves[0].Screw+told.Moves[0].Lock, told.Moves[0].Lock != ""
		return nil
	}
	if t.is == SaysNotDone || t.is == SaysOtherWay || t.is == SaysUnturned {
		return nil
	}
	return &ReadingError{Part: t.phrase, Why: "which screw? " + p.c.screwsAre(), Examples: p.c.screwExamples(t.phrase)}
}

func (s Said) screwWords() string {
	switch {
	case s.Label == "":
		return "what was told"
	case s.Lock:
		return "lock " + s.Label
	}
	return s.Label
}

// screwName is a screw or the lock beside it.
type screwName struct {
	label string
	lock  bool
}

// screw reads the label of a screw of the mirror in hand, or "lock" and one.
func (p *parser) screw() (screwName, bool) {
	from := p.at
	var n screwName
	if n.lock = p.words("lock"); !n.lock {
		p.words("screw")
	}
	cell := p.c.cell()
	for i, l := range cell.Labels {
		if n.lock && i >= cell.Locks {
			break
		}
		if p.words(strings.ToLower(l)) {
			n.label = l
			return n, true
		}
	}
	p.at = from
	return n, false
}

func (c ReadingContext) cell() optics.Cell {
	if c.Mirror == "" {
		return optics.Cell{}
	}
	return c.Tel.Cell(c.Mirror)
}

func (c ReadingContext) screwsAre() string {
	cell := c.cell()
	if len(cell.Labels) == 0 {
		return "no screw is in hand here"
	}
	return "they are " + strings.Join(cell.Labels, ", ")
}

func (c ReadingContext) screwExamples(after string) [2]string {
	if ls := c.cell().Labels; len(ls) > 1 {
		return [2]string{after + " " + ls[0], after + " " + ls[1]}
	}
	return [2]string{}
}

// noScrew refuses a name that is none of the screws in hand.
func (p *parser) noScrew(t token) *ReadingError {
	return t.refuse("no screw of that name; %s", p.c.screwsAre())
}

// turnedForm reads what was really turned: "B -1/4", "tighten B 1/8 ease A 1/8".
func turnedForm(p *parser) (Said, bool, *ReadingError) {
	said := Said{Kind: SaidTurned, Face: p.c.Face}
	var words []string
	for !p.done() {
		p.words("then")
		t, ok, err := p.turn()
		if err != nil || !ok {
			if err == nil && len(said.Turned) > 0 {
				err = p.leftover()
			}
			return Said{}, false, err
		}
		said.Turned = append(said.Turned, t)
		words = append(words, MoveWords(t))
	}
	said.echo = "turned: " + strings.Join(words, ", then ")
	return said, len(said.Turned) > 0, nil
}

// turn reads one screw and how far it was turned.
func (p *parser) turn() (Turn, bool, *ReadingError) {
	from := p.at
	sense := p.sense()
	name, ok := p.screw()
	if !ok {
		err := p.strangeTurn(from, sense != 0)
		p.at = from
		return Turn{}, false, err
	}
	sense += p.sense()
	a, ok := p.turns()
	sense += p.sense()
	ok = ok && !p.peek(0).is("to", "past", "after") // a quarter to 5
	if _, side := directionLetter(token{raw: strings.ToLower(name.label)}); !ok || side && !a.sure && sense == 0 {
		p.at = from
		return Turn{}, false, nil
	}
	t := Turn{Mirror: p.c.Mirror, Turns: a.turns}
	if name.lock {
		t.Lock = name.label
	} else {
		t.Screw = name.label
	}
	said := name.label + " " + TurnsText(a.turns)
	switch {
	case a.turns == 0:
		return t, false, &ReadingError{Part: said, Why: "a screw that was not turned is: not done"}
	case math.Abs(a.turns) > maxTurns:
		return t, false, &ReadingError{Part: said, Why: "more turns than any screw here has"}
	case a.signed && sense != 0 || math.Abs(sense) > 1:
		return t, false, &ReadingError{Part: said, Why: "a sign or one word for the way it went, not both"}
	case sense != 0:
		t.Turns *= sense
	case !a.signed && p.c.toldEased(t):
		return t, false, &ReadingError{
			Part: said, Why: "which way? it was to be eased",
			Examples: [2]string{name.label + " -" + TurnsText(a.turns), name.label + " +" + TurnsText(a.turns)},
		}
	}
	return t, true, nil
}

// strangeTurn refuses a letter with turns after it that no screw has.
func (p *parser) strangeTurn(from int, sensed bool) *ReadingError {
	named := p.words("lock") || p.words("screw")
	letter, amount := p.peek(0), p.peek(1)
	if letter.shape != shapeWord || len(letter.raw) != 1 {
		return nil
	}
	turns := amount.shape == shapeFraction || amount.sign != 0
	if _, side := directionLetter(letter); side {
		turns = turns && len(p.toks) == from+2
	}
	if named || sensed || turns {
		return p.noScrew(letter)
	}
	return nil
}

// sense reads a word for the way a screw goes: +1 clockwise, −1
// anticlockwise, 0 none.
func (p *parser) sense() float64 {
	for _, w := range []string{"tighten", "tightened", "take up", "took up", "clockwise", "cw"} {
		if p.words(w) {
			return 1
		}
	}
	for _, w := range []string{"ease", "eased", "loosen", "loosened", "anticlockwise", "counterclockwise", "acw", "ccw"} {
		if p.words(w) {
			return -1
		}
	}
	return 0
}

// touchTurns is what a hand does that only just moves a key. Common practice.
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
	a := typedTurn{turns: 1, signed: n.sign != 0}
	known := n.shape != shapeWord && n.shape != shapeClock
	if known {
		p.at++
		a.turns, a.sure = n.value, a.signed || n.shape != shapeWhole && n.shape != shapeDecimal
		if f := p.peek(0); n.shape == shapeWhole && f.shape == shapeFraction && f.sign == 0 {
			p.at++
			a.sure = true
			a.turns += f.value
			if n.sign < 0 {
				a.turns = n.value - f.value
			}
		}
	}
	part, ok := p.partOfTurn()
	if ok {
		a.turns *= part
	}
	if p.words("turn") || p.words("turns") {
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
		{"half", 1. / 2}, {"quarter", 1. / 4}, {"eighth", 1. / 8}, {"sixteenth", 1. / 16},
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
func (c ReadingContext) toldEased(t Turn) bool {
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
