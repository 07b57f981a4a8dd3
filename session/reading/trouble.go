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
	fallen     = "laser off, tube level. Look for it with a torch, and count the kit. Without it, say stop safely"
	cardWanted = "leave the laser off until a white card covers the whole open end. Paper will do. Without it, say stop safely"
	lostThing  = "do not tilt the tube. Look into it with a torch before the cap goes on. Without it, say stop safely"
	keyWanted  = "do not tilt the tube. Look for the key with a torch. Without one, say stop safely"
	noReach    = "can somebody else turn it? Force nothing. If nobody can, say skip cannot reach"
	noLook     = "can somebody else look? If nobody can, say cannot see"
	noLocks    = "this scope turns without them: say skip no locks"
	noSwing    = "leave it out, with the reason: say skip no room"
	noRing     = "measure from the mirror's middle: say 4:30 12, or 4 1/2 for half way to its edge"
	laserDark  = "press its switch, or put a fresh battery in. If it stays dark, say dead laser"
	fitting    = "use the holder that fits the focuser. Without one, say stop safely"
	onlySafe   = "only class 2 (1 mW) or 3R (5 mW), by its label. Leave any other off, and say stop safely"
)

// troubles are what goes wrong beside spot and screws, and what to do.
var troubles = []trouble{
	{patternOf("not|cant|hasnt|nothing|missing|forgot|lost card|paper", "find found have see any white here hand"), cardWanted},
	{patternOf("not|nothing|hasnt cover", "have any end card white with"), cardWanted},
	{patternOf("not|nothing|hasnt white", "have any any sheet"), cardWanted},
	{patternOf("not|cant|hasnt paper", "either any have sheet"), cardWanted},
	{patternOf("not|cant card|paper stay|hold|stick", "up on there"), "tape it on, or let somebody hold it. Until then the laser stays off. Without it, say stop safely"},
	{patternOf("which card|paper", "size big use white kind"), cardWanted},
	{patternOf("not|cant|hasnt|missing|lost|forgot|dropped|where|short|gone|vanished|fell|fallen key", "find found have any reach right here screw lock one went"), keyWanted},
	{patternOf("wrong|not|cant key", "fit fits fitting head screw lock right size too went in into"), "use the key that fills the head: a wrong one rounds it. Without one, say stop safely"},
	{patternOf("which clockwise|anticlockwise|tighten|loosen|ease", "way turn"), "as you face the screw's head, clockwise tightens and anticlockwise eases"},
	{patternOf("far|high|awkward|low reach", "too screw"), noReach},
	{patternOf("cant|not reach", "any screw lock key arm arms far long too enough"), noReach},
	{patternOf("cant get|look head|eye|near|close|look|see", "in there enough"), noLook},
	{patternOf("cant get", "there at in screw lock key hand any one"), noReach},
	{patternOf("key short|longer", "too need not long enough"), noReach},
	{patternOf("key big|small|large|thick|thin|loose", "too"), "use the key that fills the head: a wrong one rounds it. Without one, say stop safely"},
	{patternOf("arm|arms|hand|hands|finger|fingers not|cant", "fit get reach in there"), noReach},
	{patternOf("arm|arms|hand|hands short|longer|long|big|large", "too not enough need"), noReach},
	{patternOf("awkward", "too look see reach"), noLook},
	{patternOf("not|nothing|hasnt lock", "any has have here there got found find see mirror on one spot screw"), noLocks},
	{patternOf("two|many|just lock", "there has one three"), "ease the ones that are there. Where is the spot then? say 4:30 8"},
	{patternOf("not|nothing|cant|lost|missing ring", "any see find centre there has"), noRing},
	{patternOf("not|nothing|missing ring mirror", "any see find centre there on has"), noRing},
	{patternOf("ring came|come|fell|gone", "mirror off has away centre"), noRing},
	{patternOf("fell|falls|dropped out|off|screw|lock|bolt", "screw lock out off right all"), fallen},
	{patternOf("came|come|went|vanished out|off screw|lock|bolt", "right all"), fallen},
	{patternOf("came|come out right", ""), fallen},
	{patternOf("missing|lost|short|dropped cap|something|one|kit|tool|screw|washer|nut|spring|label|piece|part", "cant find see lost in tube"), lostThing},
	{patternOf("not|cant find|missing|lost cap", "one see laser"), lostThing},
	{patternOf("cant find|see lock", "any the"), "it is the second screw beside an adjusting screw. Where there is none, say skip no locks"},
	{patternOf("knocked|bumped|kicked", "someone somebody i it just spot tube mirror laser was has been got"), "hands off, and look again. Where is the spot now? say 4:30 8, or back for both spots once more"},
	{patternOf("pause|break|rest", "need have a short take i"), "take your time, the laser off if it is long. To take it up again later, say quit"},
	{patternOf("scrap|scrub|cancel|forget|ignore|strike|delete|disregard", "that it last reading one"), "to take the last answer back, say undo"},
	{patternOf("cold|freezing|tired|numb", "too hand hands finger fingers very getting"), "take your time, with the laser off. To take it up again later, say quit"},
	{patternOf("start|begin|restart|go again|over|beginning", "from all new the"), "to take the last answer back, say undo. For the stage before, say back"},
	{patternOf("wrong|mistake reading", "that last was my"), "to take the last answer back, say undo"},
	{patternOf("too heavy", "tube swing move lift alone tilt me"), "two people swing a heavy tube. Without a second, say skip too heavy"},
	{patternOf("not|cant room|swing|alone|help", "swing room space here move lift any enough"), noSwing},
	{patternOf("mount|rocker|base|bearing|tube stuck|bolted|clamped|free|cant", "is down on up move turn swing"), noSwing},
	{patternOf("bolted|clamped", "down tube mount"), noSwing},
	{patternOf("not|cant turn|stuck laser", "in holder move"), "leave it as it is and say cannot tell"},
	{patternOf("laser|holder stuck", "in focuser fast"), "leave it as it is and say cannot tell"},
	{patternOf("not|cant laser|holder fit|fits", "focuser mouth in into too"), fitting},
	{patternOf("not|cant went|fit|fits mouth", "in into"), fitting},
	{patternOf("not|nothing laser does|doing|happens|comes", "from out"), laserDark},
	{patternOf("laser|holder too", "big large small wide thick tight focuser mouth"), fitting},
	{patternOf("laser|holder free|slack|rattles|wobbles", "in focuser mouth very bit turn holder"), "tighten the focuser's clamp until the laser sits still"},
	{patternOf("not|cant|hasnt laser light|work|works|lit|come|comes|turn|start|starts|shine|shines|glow|went", "switch on red show shows"), laserDark},
	{patternOf("not laser on", "is"), laserDark},
	{patternOf("not|cant|hasnt light|lit|work|works|switch", "sign up laser on turn it"), laserDark},
	{patternOf("which switch", "laser on"), "it is on the laser, at its end or its side. If it stays dark, say dead laser"},
	{patternOf("class|milliwatt|mw", "label says on laser not it high no red too b"), onlySafe},
	{patternOf("safe laser|beam|red", "it look at to"), onlySafe},
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
		if g.matchesBut(t.wordPattern) {
			return &lex.Error{Asks: true, Advice: true, Part: c.line, Why: t.say}
		}
	}
	if g.has("which") && !g.has("said|cue|before|was|from") && !(g.has("cant") && g.has("see")) && !g.has("stay|same") {
		return &lex.Error{Asks: true, Advice: true, Part: c.line, Why: c.whichWords()}
	}
	return nil
}

// moreOf says how one is told more.
const moreOf = "what is to be known: the question again, its reason or the ways to answer? say where, why or help"

// whichWords answers a question.
func (c Context) whichWords() string {
	if c.Told != nil && len(c.Told.Moves) > 0 {
		return "told was " + words.MoveWords(c.Told.Moves[0].Turn) + ". " + capital(moreOf)
	}
	return moreOf
}
