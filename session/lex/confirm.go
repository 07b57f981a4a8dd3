package lex

import "strings"

// Words that say that what was asked is done, and what may stand beside them.
var (
	yesWords    = WordSet("y yes away sorted present accounted everything works working yep yeah yup ok okay k kk aye sure done ready finished complete completed did swung swinging counted back on lit set shining eased snug tightened safe right fine good")
	besideAYes  = WordSet("pointing shines hand held holding ready red see onto put swing tube all both everything every it's nothing left tube up down card cap laser switched turned in out over the end level locks lock three them one two four by kit tools box bag case lasers there here present correct of and then safely properly")
	notYesWords = WordSet("bar but short missing lost dropped broken except until unless if only when before half nearly almost dead flat weak dim later soon one-minute wait off")
)

// SaysYes reports whether a line says that what was asked is done, and nothing
// else.
func SaysYes(text string) bool {
	toks, err := Scan(strings.Replace(strings.ToLower(text), "when you are", "", 1))
	if err != nil || strings.Contains(text, "?") || Asks(toks) {
		return false
	}
	yes, all, card := false, false, false
	for i, t := range toks {
		switch {
		case t.IsNumber(), Negative(t) && !(t.Is("nothing") && TokenAt(toks, i+1).Is("left")), notYesWords[t.Raw] && !(t.Is("off") && TokenAt(toks, i-1).Is("cap")):
			return false
		case yesWords[t.Raw], Classes[t.Raw] == "yes", all && t.Is("there", "here", "in"), card && t.Is("up", "held", "place"):
			yes = true
		case t.Is("all"):
			all = true
		case t.Is("card", "paper"):
			card = true
		case !besideAYes[t.Raw] && t.Raw != "dokey" && !Fillers[t.Raw]:
			return false
		}
	}
	return yes
}

// NotDone asks what is in the way where something is to be done, with what people
// may say of it.
func NotDone(text string, inTheWay ...string) error {
	return &Error{
		Part: strings.TrimSpace(text), Why: "is it done, or what is in the way?",
		Examples: append([]string{"yes"}, inTheWay...), Asks: true,
	}
}

// Negative reports whether a word turns what is said of a place round, or puts
// it in doubt.
func Negative(t Token) bool {
	switch Classes[t.Raw] {
	case "not", "cant", "hasnt", "nothing", "nearly":
		return true
	}
	return false
}

// Words that a question begins with, and those that follow them in one: "is it", "can
// i". A line that says so begins otherwise.
var (
	askVerbs = WordSet("is are was were does do can could should would may shall will has have am")
	askedOf  = WordSet("it this that the i you we they there my your these those")
)

// Asks reports whether a line is a question by its first words.
func Asks(toks []Token) bool {
	first, second := TokenAt(toks, 0), TokenAt(toks, 1)
	return askVerbs[first.Raw] && askedOf[second.Raw] && !(first.Is("do", "was", "were") && second.Is("it", "the", "this", "that", "these"))
}
