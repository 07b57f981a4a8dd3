package reading

import "strings"

// Words that say that what was asked is done, and what may stand beside them.
var (
	yesWords    = wordSet("y yes everything works working yep yeah yup ok okay k kk aye sure done ready finished complete completed did swung swinging counted back on lit eased snug tightened safe right fine good")
	besideAYes  = wordSet("all both everything every it's nothing left tube up down card cap laser switched turned in out over the end level locks lock three them one two four by kit tools box bag case lasers there here present correct of and then safely properly")
	notYesWords = wordSet("missing lost dropped broken except until unless if only when before half nearly almost dead flat weak dim later soon one-minute wait off")
)

// SaysYes reports whether a line says that what was asked is done, and nothing
// else.
func SaysYes(text string) bool {
	toks, err := scan(text)
	if err != nil || strings.Contains(text, "?") {
		return false
	}
	yes, all := false, false
	for _, t := range toks {
		switch {
		case t.isNumber(), isNegative(t) && !t.is("nothing"), notYesWords[t.raw]:
			return false
		case yesWords[t.raw], all && t.is("there", "here", "in"):
			yes = true
		case t.is("all"):
			all = true
		case !besideAYes[t.raw] && !fillers[t.raw]:
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
		Examples: append([]string{"yes"}, inTheWay...), ask: true,
	}
}
