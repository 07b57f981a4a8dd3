package reading

import (
	"fmt"
	"strings"
)

// Words that say that what was asked is done, and what may stand beside them.
var (
	yesWords    = wordSet("y yes everything works working yep yeah yup ok okay k kk aye sure done ready finished complete completed did swung swinging counted back on lit eased snug tightened safe right fine good")
	besideAYes  = wordSet("all both everything every it's nothing left tube up down card cap laser switched turned in out over the end level locks lock three them one two four by kit tools there here present correct of and then safely properly")
	notYesWords = wordSet("missing lost dropped broken except until unless if only when before half nearly almost dead flat weak dim later soon one-minute wait off")
)

// SaysYes reports whether a line says that what was asked is done, and nothing
// else.
func SaysYes(text string) bool {
	toks, err := scan(text)
	if err != nil || strings.Contains(text, "?") {
		return false
	}
	yes := false
	for _, t := range toks {
		switch {
		case t.isNumber(), isNegative(t) && !t.is("nothing"), notYesWords[t.raw]:
			return false
		case yesWords[t.raw]:
			yes = true
		case !besideAYes[t.raw] && !fillers[t.raw]:
			return false
		}
	}
	return yes
}

// NotDone says how to answer where something is to be done: what may keep
// one from it is asked for.
func NotDone(text, hindrance string) error {
	if strings.TrimSpace(text) == "" {
		return fmt.Errorf("say yes (or Enter) when it is done; u undoes, stop safely makes safe")
	}
	return fmt.Errorf("%q: is it done? say yes (or Enter) when it is; what keeps you from it can be said too: %s", Shorten(strings.TrimSpace(text), 24), hindrance)
}
