package reading

import (
	"strings"

	"spotward/optics"
	"spotward/session/event"
	"spotward/session/lex"
)

// talk is what people say of a screw, or of what they did with it.
type talk struct {
	phrase string
	kind   SaidKind
	is     event.Says
	echo   string // after the screw's name
}

// screwTalk is what can be said of a screw or a lock.
var screwTalk = []talk{
	{"stuck", SaidScrew, event.SaysStuck, "is stuck"},
	{"blocked", SaidScrew, event.SaysStuck, "is stuck"},
	{"free", SaidScrew, event.SaysFree, "turns free"},
	{"loose", SaidScrew, event.SaysFree, "turns free"},
	{"end", SaidScrew, event.SaysEnd, "is at its end"},
	{"at end", SaidScrew, event.SaysEnd, "is at its end"},
	{"slipped", SaidScrew, event.SaysSlipped, "slipped"},
	{"sticky", SaidScrew, event.SaysSticky, "is sticky"},
	{"stripped", SaidScrew, event.SaysStripped, "is stripped"},
	{"other way", SaidScrew, event.SaysOtherWay, "was turned the other way"},
	{"wrong way", SaidScrew, event.SaysOtherWay, "was turned the other way"},
	{"not done", SaidScrew, event.SaysNotDone, "was not turned"},
	{"not turned", SaidScrew, event.SaysUnturned, "was not turned before that look"},
	{"wrong", SaidWrong, "", "was turned in place of the one told"},
	{"wrong screw", SaidWrong, "", "was turned in place of the one told"},
}

// screwForm reads what a screw said: "stuck B", "B is stuck", "other way".
func screwForm(p *parser) (Said, bool, *lex.Error) {
	all := screwTalk
	name, before := p.screw()
	i := p.longest(len(all), func(i int) string { return all[i].phrase })
	if i < 0 {
		return Said{}, false, nil
	}
	if !before && !p.done() {
		ok := false
		if name, ok = p.screw(); !ok {
			if t := p.peek(0); len(t.Raw) > 1 && !t.IsNumber() && !p.peek(-1).Is("lock", "screw") {
				return Said{}, false, nil // of a spot: slipped out
			}
			return Said{}, false, p.noScrew(p.peek(0))
		}
	}
	if !p.done() {
		return Said{}, false, p.leftover()
	}
	if all[i].is == event.SaysStuck && !name.said && p.c.onlyItsLock(name.label) {
		name.lock, name.said = true, true
	}
	if err := p.bareLetter(name, all[i].phrase); err != nil {
		return Said{}, false, err
	}
	if all[i].kind == SaidWrong && p.c.onlyToldIs(name.label) {
		return Said{}, false, p.wrongIsTold(name.label)
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
func (p *parser) onlyTold(said *Said, t talk) *lex.Error {
	told := p.c.Told
	if said.Kind == SaidScrew && t.is != event.SaysUnturned && told != nil && len(told.Moves) == 1 {
		said.Label, said.Lock = told.Moves[0].Screw+told.Moves[0].Lock, told.Moves[0].Lock != ""
		return nil
	}
	if t.is == event.SaysNotDone || t.is == event.SaysOtherWay || t.is == event.SaysUnturned {
		return nil
	}
	return &lex.Error{Part: t.phrase, Why: "which screw? " + p.c.screwsAre(), Examples: p.c.screwExamples(t.phrase)}
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

func (c Context) cell() optics.Cell {
	if c.Mirror == "" {
		return optics.Cell{}
	}
	return c.Tel.Cell(c.Mirror)
}

func (c Context) screwsAre() string {
	cell := c.cell()
	if len(cell.Labels) == 0 {
		return "no screw is in hand here"
	}
	return "they are " + strings.Join(cell.Labels, ", ")
}

func (c Context) screwExamples(after string) []string {
	if ls := c.cell().Labels; len(ls) > 1 {
		if c.lockMayBeMeant(ls[0]) {
			return []string{after + " lock " + ls[0], after + " lock " + ls[1]}
		}
		return []string{after + " " + ls[0], after + " " + ls[1]}
	}
	return []string{}
}

// noScrew refuses a name that is none of the screws in hand.
func (p *parser) noScrew(t lex.Token) *lex.Error {
	err := t.Refuse("no screw of that name; %s", p.c.screwsAre())
	err.Certain = true
	return err
}
