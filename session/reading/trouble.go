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

// What to do, where more than one trouble has the same way out.
const (
	fallen     = "laser off, tube level. Look for it with a torch, and count the kit"
	cardWanted = "leave the laser off until something white covers the whole open end. Paper will do, taped on"
	lostThing  = "do not tilt the tube. Look into it with a torch, and find it before the cap goes on"
	keyWanted  = "do not tilt the tube. Look for the key with a torch. Without one, say stop safely"
	noReach    = "let somebody else turn it, or say skip and the reason. Force nothing"
	noLook     = "let somebody else look, or say cannot see"
	noLocks    = "this scope turns without them: say skip no locks"
	noSwing    = "say skip and the reason, as in: skip no room"
	noRing     = "say how far from the mirror's middle: 4:30 12, or 4 1/2 for half way to its edge"
	laserDark  = "press its switch, or put a fresh battery in. If it stays dark, say dead laser"
	fitting    = "use the holder that fits the focuser. Without one, say stop safely"
	onlySafe   = "only class 2 (1 mW) or 3R (5 mW), by its label. Leave any other off, and say stop safely"
)

// troubles are what goes wrong beside spot and screws, and what to do.
var troubles = []trouble{
	{patternOf("not|cant|hasnt|nothing|missing|forgot|lost card|paper", "find found have see any white here hand"), cardWanted},
	{patternOf("not|nothing|hasnt cover", "have any end card white"), cardWanted},
	{patternOf("which card|paper", "size big use white kind"), cardWanted},
	{patternOf("not|cant|hasnt|missing|lost|forgot|dropped|where|short key", "find found have any reach right here screw lock one went"), keyWanted},
	{patternOf("wrong|not|cant key", "fit fits fitting head screw lock right size too went in into"), "use the key that fills the head: a wrong one rounds it. Without one, say stop safely"},
	{patternOf("which clockwise|anticlockwise|tighten|loosen|ease", "way turn"), "as you face the screw's head, clockwise tightens and anticlockwise eases"},
	{patternOf("cant|not reach", "any screw lock key arm arms far long too enough"), noReach},
	{patternOf("cant get", "head eye near close look there enough"), noLook},
	{patternOf("cant get", "at in screw lock key hand any one"), noReach},
	{patternOf("arm|arms|hand|hands short|longer|long|big|large", "too not enough need"), noReach},
	{patternOf("awkward", "too look see reach"), noLook},
	{patternOf("not|nothing|hasnt lock", "any has have here there got found find see mirror on one spot"), noLocks},
	{patternOf("two|many|just lock", "there has one three"), "ease the ones that are there, then say where the spot is"},
	{patternOf("not|nothing|cant|lost|missing ring", "any see find centre there has"), noRing},
	{patternOf("not|nothing|missing ring mirror", "any see find centre there on has"), noRing},
	{patternOf("ring came|come|fell|gone", "mirror off has away centre"), noRing},
	{patternOf("fell|falls|dropped out|off|screw|lock|bolt", "screw lock out off right all"), fallen},
	{patternOf("came|come|went|vanished out|off screw|lock|bolt", "right all"), fallen},
	{patternOf("came|come out right", ""), fallen},
	{patternOf("missing|lost|short|dropped cap|something|one|kit|tool|screw|washer|nut|spring|label|piece|part", "cant find see lost in tube"), lostThing},
	{patternOf("not|cant find|missing|lost cap", "one see laser"), lostThing},
	{patternOf("cant find|see lock", "any the"), "it is the second screw beside an adjusting screw. Where there is none, say skip no locks"},
	{patternOf("knocked|bumped|kicked", "someone somebody i it just spot tube mirror laser was has been got"), "hands off, and look again: say where the spot is now. Back asks for the spots once more"},
	{patternOf("pause|break|rest", "need have a short take i"), "take your time: the laser off, if it is long. Quit loses nothing: take it up again later"},
	{patternOf("scrap|cancel|forget|ignore", "that it last reading one"), "undo takes the last answer back"},
	{patternOf("wrong|mistake reading", "that last was my"), "undo takes the last answer back"},
	{patternOf("too heavy", "swing move lift alone"), "two people swing a heavy tube. Without a second, say skip and the reason"},
	{patternOf("not|cant room|swing|alone", "swing room space here move lift any enough"), noSwing},
	{patternOf("mount|rocker|base|bearing|tube stuck|bolted|clamped|free|cant", "is down on up move turn swing"), noSwing},
	{patternOf("bolted|clamped", "down tube mount"), noSwing},
	{patternOf("not|cant turn|stuck laser", "in holder move"), "leave it as it is and say cannot tell"},
	{patternOf("laser|holder stuck", "in focuser fast"), "leave it as it is and say cannot tell"},
	{patternOf("not|cant laser|holder fit|fits", "focuser mouth in into too"), fitting},
	{patternOf("laser|holder too", "big large small wide thick tight focuser mouth"), fitting},
	{patternOf("laser|holder free|slack|rattles|wobbles", "in focuser mouth very bit turn holder"), "tighten the focuser's clamp until the laser sits still"},
	{patternOf("not|cant|hasnt laser light|work|works|lit|come|comes|turn", "switch on"), laserDark},
	{patternOf("not|cant|hasnt light|lit|work|works|switch", "sign up laser on turn it"), laserDark},
	{patternOf("which switch", "laser on"), "it is on the laser, at its end or its side. If it stays dark, say dead laser"},
	{patternOf("class|milliwatt|mw", "label says on laser not it high no red too b"), onlySafe},
	{patternOf("not label", "laser on it any no"), onlySafe},
}

// troubleTalk answers what keeps people from going on.
func troubleTalk(toks []lex.Token, c Context) (Said, bool, *lex.Error) {
	return Said{}, false, troubleOf(toks, c)
}

func troubleOf(toks []lex.Token, c Context) *lex.Error {
	g := gistOf(toks, c)
	for _, t := range g.place {
		if t.IsNumber() && t.Raw != "one" && t.Raw != "two" && !g.has("class|mw") || lex.IsUnit(t) && !g.has("class") {
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
	if g.has("which") && !g.has("said|cue|before|was|from") {
		return &lex.Error{Asks: true, Advice: true, Part: c.line, Why: c.whichWords()}
	}
	return nil
}

// whichWords answers a question.
func (c Context) whichWords() string {
	if c.Told != nil && len(c.Told.Moves) > 0 {
		return "told was " + words.MoveWords(c.Told.Moves[0].Turn) + ". Where says it all again, why the reason, help what one may type"
	}
	return "where says the question again, help what one may type"
}
