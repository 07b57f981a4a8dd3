package reading

import (
	"spotward/session/lex"
	"spotward/session/words"
)

// trouble is something that keeps people from going on, and what to do then.
type trouble struct {
	wordPattern
	say string
}

const fallen = "laser off; do not tilt the tube; look for it with a torch, and count the kit"

// troubles are what goes wrong beside spot and screws, and what to do.
var troubles = []trouble{
	{patternOf("not|cant|nothing|missing|forgot|lost card|paper", "find have see any white here"), "leave the laser off until something white covers the whole end: paper, taped, will do"},
	{patternOf("not|cant|missing|lost|forgot|dropped|where key", "find have any reach right here screw"), "do not tilt the tube; look for the key with a torch. Without one, say stop safely"},
	{patternOf("cant reach", "any screw lock key"), "let somebody else turn it, or say skip and the reason; force nothing"},
	{patternOf("not|nothing lock", "any has have here there got found find see mirror on one"), "this scope turns without them: say skip no locks"},
	{patternOf("fell|falls|dropped out|off|screw|lock|bolt", "screw lock out off right all"), fallen},
	{patternOf("came|went|vanished out|off screw|lock|bolt", "right all"), fallen},
	{patternOf("missing|lost cap|something|one|kit|tool|screw", "cant find see"), "do not tilt the tube; look into it with a torch, and find it before the cap goes on"},
	{patternOf("not|cant find|missing|lost cap", "one see"), "do not tilt the tube; look into it with a torch, and find it before the cap goes on"},
	{patternOf("cant find|see lock", "any the"), "it is the second screw beside an adjusting screw; where there is none, say skip no locks"},
	{patternOf("knocked|bumped|kicked", "someone somebody i it just spot tube mirror laser was has been got"), "hands off, and look again: say where the spot is now; back asks for the spots once more"},
	{patternOf("pause|break|rest", "need have a short take i"), "take your time: the laser off, if it is long. Nothing is lost: quit, and take it up again later"},
	{patternOf("scrap|cancel|forget|ignore", "that it last reading one"), "undo takes the last answer back"},
	{patternOf("wrong|mistake reading", "that last was my"), "undo takes the last answer back"},
	{patternOf("too heavy", "swing move lift alone"), "two people swing a heavy tube; without a second, say skip and the reason"},
	{patternOf("not|cant room|swing|alone", "swing room space here move lift any enough"), "say skip and the reason, as in: skip no room"},
	{patternOf("not|cant turn laser", "in holder move"), "leave it as it is and say cannot tell"},
}

// troubleTalk answers what keeps people from going on.
func troubleTalk(toks []lex.Token, c Context) (Said, bool, *lex.Error) {
	return Said{}, false, troubleOf(toks, c)
}

func troubleOf(toks []lex.Token, c Context) *lex.Error {
	g := gistOf(toks, c)
	for _, t := range g.place {
		if t.IsNumber() && t.Raw != "one" || lex.IsUnit(t) {
			return nil
		}
	}
	for _, said := range []string{"i am lost", "im lost", "i'm lost"} {
		if c.line == said { // the person, not the spot
			return &lex.Error{Asks: true, Advice: true, Part: c.line, Why: c.whichWords()}
		}
	}
	for _, t := range troubles {
		if g.matches(t.wordPattern) {
			return &lex.Error{Asks: true, Advice: true, Part: c.line, Why: t.say}
		}
	}
	if g.has("which") && !g.has("said|cue|before|was") {
		return &lex.Error{Asks: true, Advice: true, Part: c.line, Why: c.whichWords()}
	}
	return nil
}

// whichWords answers a question.
func (c Context) whichWords() string {
	if c.Told != nil && len(c.Told.Moves) > 0 {
		return "told was " + words.MoveWords(c.Told.Moves[0].Turn) + "; help says what can be said here, why gives the reason"
	}
	return "help says what can be said here"
}
