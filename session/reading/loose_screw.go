package reading

import (
	"math"
	"slices"
	"strings"

	"spotward/session/event"
	"spotward/session/lex"
)

// screwRule is what people say of a screw, by the words that are in it.
type screwRule struct {
	needs, mays string
	as          string // as in screwTalk; "" = asked back
	why         string
	ex          []string // with the screw's name for @

	wordPattern
}

// screwRules are tried in this order. What is said of any screw goes for the one
// that was told where none is named.
var screwRules = compiledScrews([]screwRule{
	{needs: "other way", mays: "on turn both them done mistake instead round all two", as: "other way"},
	{needs: "other way", mays: "turn both them went vanished move mistake spot", why: "was the screw turned the other way, or did the spot go another way?", ex: []string{"other way", "4:30 8"}},
	{needs: "backwards", mays: "turn both them done mistake", as: "other way"},
	{needs: "swapped|exchanged", mays: "them two both", why: "which way did each go?", ex: []string{"other way", "not done"}},
	{needs: "other screw", mays: "turn done mistake", as: "wrong"},
	{needs: "other lock", mays: "turn done mistake ease", why: "which lock was turned, and how far?", ex: []string{"lock A -1/4", "lock B -1/4", "lock C -1/4"}},

	{needs: "cant|not|nothing further|farther|more", mays: "turn move went vanished any", as: "end"},
	{needs: "end", mays: "on of in out reached hit bottomed thread travel way at screw", as: "end"},
	{needs: "far went|turn|move", mays: "will as", as: "end"},
	{needs: "not there yet", mays: "quite", why: "where is it now?", ex: []string{"4:30 8", "@ +1/8"}},
	{needs: "not free", why: "does it turn as it should? say where the spot is now", ex: []string{"4:30 8", "free @", "slipped @"}},
	{needs: "cant|not stuck", why: "stuck or not?", ex: []string{"stuck @", "4:30 8"}},
	{needs: "stuck", mays: "screw lock completely totally fast tight", as: "stuck"},
	{needs: "cant turn|move|went|tighten|loosen|ease|undo|shift|rotate", mays: "any screw lock far round further all either way", as: "stuck"},
	{needs: "not turn", mays: "any screw lock", as: "stuck"},
	{needs: "hasnt move|turn|budge", mays: "any screw", why: "stuck, or not turned?", ex: []string{"stuck @", "not done"}},
	{needs: "stiff", mays: "too screw lock turn very move went really anything any as", why: "does it still turn?", ex: []string{"sticky @", "stuck @"}},
	{needs: "sticky", mays: "turn screw went move in", as: "sticky"},
	{needs: "turn nothing", mays: "happens move", why: "does it turn freely?", ex: []string{"free @", "same"}},
	{needs: "not|nothing resistance", mays: "in turn has with any more screw", as: "free"},
	{needs: "free", mays: "round turn screw lock went came too completely totally move just not resistance", as: "free"},
	{needs: "key cant|not", mays: "resistance hold holds turn stay any on", why: "does the key slip, or is the head worn?", ex: []string{"slipped @", "stripped @"}},
	{needs: "key turn|round", mays: "in head free just round and", why: "does the key slip, or is the head worn?", ex: []string{"slipped @", "stripped @"}},
	{needs: "slipped", mays: "key on off in head screw out", as: "slipped"},
	{needs: "key jumped", mays: "out off", as: "slipped"},
	{needs: "stripped", mays: "head off out thread screw key", as: "stripped"},
	{needs: "thread went|vanished", mays: "", as: "stripped"},
	{needs: "thread out|more|left|ran|run", mays: "not nothing of", as: "end"},

	{needs: "does|doesnt|makes any|nothing", mays: "do turn", why: "does it turn freely, or not at all?", ex: []string{"free @", "stuck @", "same", "not done"}},
	{needs: "not|nothing effect|difference", mays: "any does makes", why: "does it turn freely, or not at all?", ex: []string{"free @", "stuck @", "same", "not done"}},
	{needs: "hasnt|not|nothing turn|done|do|touched|touch|started|yet", mays: "any screw yet key", as: "not done"},
	{needs: "forgot", mays: "turn done screw", as: "not done"},
})

func compiledScrews(rules []screwRule) []screwRule {
	for i, r := range rules {
		rules[i].wordPattern = patternOf(r.needs, r.mays+" lock screw key head mistake up rock")
	}
	return rules
}

// screwWords understands what a screw did, and what was done with it by mistake.
func screwWords(toks []lex.Token, c Context) (Said, bool, *lex.Error) {
	g := gistOf(toks, c)
	if len(c.cell().Labels) == 0 || len(g.all) == 0 {
		return Said{}, false, nil
	}
	sides := len(g.place) > 0 && !slices.ContainsFunc(g.place, func(t lex.Token) bool { return !t.Is("left", "right") })
	if sides && c.Told != nil && g.has("turned") {
		return Said{}, false, askBack(c.line, "clockwise or anticlockwise, as you face its head?", c.screwWays(g.label)...)
	}
	if said, ok, err := g.wrongOne(toks); ok || err != nil {
		return said, ok, err
	}
	if len(g.place) > 1 || len(g.place) == 1 && g.place[0].Raw != "three" { // all three
		return Said{}, false, nil
	}
	if err := g.howFar(toks); err != nil {
		return Said{}, false, err
	}
	if said, ok, err := g.againstSense(toks); ok || err != nil {
		return said, ok, err
	}
	for _, r := range screwRules {
		if !g.matches(r.wordPattern) || !g.ofScrews(r) {
			continue
		}
		name := g.label
		if g.has("lock") && name != "" {
			name = "lock " + name
		}
		if r.as == "" {
			return Said{}, false, askBack(c.line, r.why, g.named(r.ex, name)...)
		}
		if g.names > 1 && r.as != "other way" && r.as != "not done" {
			var each []string
			for _, l := range c.labelsIn(toks) {
				each = append(each, r.as+" "+c.screwName(l))
			}
			return Said{}, false, askBack(c.line, "one screw at a time: which first?", each...)
		}
		if m := c.onlyTold(); g.has("lock") && name == "" && m != nil && m.Lock == "" { // a lock, where a screw was told
			return Said{}, false, askBack(c.line, "which lock?", g.named([]string{r.as + " lock @"}, "")...)
		}
		return c.screwSaid(strings.TrimSpace(r.as+" "+name), c.line)
	}
	switch {
	case c.Told == nil:
	case g.names > 0 && !g.toldIs(g.label) && len(g.place) == 0 && g.only("done turn ease eased tighten tightened loosened loosen screw and lock"):
		return Said{}, false, askBack(c.line, "how far?", c.screwWays(g.label)...)
	case g.onlyRaw(madeWords), g.has("what") && g.onlyRaw(madeWords+" what you said"):
		return Said{}, false, askBack(c.line, "good: where is the spot now?", c.examples()...)
	}
	return Said{}, false, nil
}

// madeWords say that what was told was turned, and no more.
const madeWords = "made given done finish turning ok okay k yes yep yeah y ready finished turned told did it as all good fine eased tightened snug snugged nipped loosened three both that them complete completed moved every lock locks"

// ofScrews reports whether a line that fits a rule is about a screw: one is
// named, or was told; what can be said of a spot as well needs a name.
func (g gist) ofScrews(r screwRule) bool {
	if g.label != "" || g.names > 1 {
		return true
	}
	if strings.HasPrefix(r.needs, "hasnt move") {
		return g.has("screw|lock|key")
	}
	return g.c.Told != nil || g.has("screw|lock|key|head")
}

// named puts the screw's name into examples.
func (g gist) named(ex []string, name string) []string {
	if name == "" {
		name = g.c.screwName("")
	}
	out := make([]string, len(ex))
	for i, e := range ex {
		out[i] = strings.ReplaceAll(e, "@", name)
	}
	return out
}

// screwSaid takes a line as what is said of a screw in the words that are shown.
func (c Context) screwSaid(line, typed string) (Said, bool, *lex.Error) {
	toks, err := lex.Scan(line)
	if err != nil {
		return Said{}, false, err
	}
	for i := range toks {
		if toks[i].Is("a") {
			toks[i].Upper = true
		}
	}
	said, err := parseStrictly(toks, c)
	if err != nil {
		err.Asks = true
		if err.Part == line {
			err.Part = typed
		}
	}
	return said, err == nil, err
}

// toldIs reports whether a screw is among those that were told.
func (g gist) toldIs(label string) bool {
	if g.c.Told == nil {
		return false
	}
	for _, m := range g.c.Told.Moves {
		if strings.EqualFold(m.Screw+m.Lock, label) {
			return true
		}
	}
	return false
}

// sense returns the one way that a line says a screw went; 0: none, or both.
func (g gist) sense(toks []lex.Token) (sense float64) {
	for i, t := range toks {
		s := senseWord(t)
		if t.Is("clockwise") && lex.TokenAt(toks, i-1).Is("counter", "anti") {
			s = -1
		}
		if s != 0 && sense == -s {
			return 0
		}
		if s != 0 {
			sense = s
		}
	}
	return sense
}

// againstSense understands a word for the way alone: "turned it anticlockwise"
// where clockwise was told.
func (g gist) againstSense(toks []lex.Token) (Said, bool, *lex.Error) {
	sense := g.sense(withoutInstead(toks, g.c))
	m, name := g.c.onlyTold(), ""
	if m == nil && g.label != "" && g.has("mistake|instead|other") {
		if m = g.c.toldOf(g.label); m != nil {
			name = " " + g.label
		}
	}
	g.words = slices.DeleteFunc(slices.Clone(g.words), func(t lex.Token) bool { return senseWord(t) != 0 })
	if sense == 0 || !g.only("counter anti turn done did instead mistake of move screw lock other way went vanished in out of") {
		return Said{}, false, nil
	}
	text := g.c.line
	switch {
	case m == nil && g.c.Told != nil:
		return Said{}, false, askBack(text, "which screw, and how far?", g.c.screwWays(g.label)...)
	case m == nil, g.label != "" && !g.toldIs(g.label):
		return Said{}, false, nil
	case math.Copysign(1, m.Turns) == sense && g.has("mistake|instead|other"):
		return Said{}, false, askBack(text, "that was told: what was turned?", g.c.screwWays("")...)
	case math.Copysign(1, m.Turns) == sense:
		return Said{}, false, askBack(text, "good: where is the spot now?", g.c.examples()...)
	}
	return g.c.screwSaid("other way"+name, text)
}

// toldOf returns the one move of that screw that was told, or nil.
func (c Context) toldOf(label string) (m *event.ToldMove) {
	if c.Told == nil {
		return nil
	}
	for i := range c.Told.Moves {
		if strings.EqualFold(c.Told.Moves[i].Screw, label) {
			if m != nil {
				return nil
			}
			m = &c.Told.Moves[i]
		}
	}
	return m
}
