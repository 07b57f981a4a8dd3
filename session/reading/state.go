package reading

import (
	"slices"
	"strings"

	"spotward/optics"
	"spotward/session/lex"
)

// stateRule is one way to say what the spot does, by the words that are in it.
type stateRule struct {
	on    string // f the target face, p the primary, s the others; "" = everywhere
	needs string // of each a word or a class; alternatives are parted by strokes
	mays  string // what may stand beside them
	at    where
	as    string // the saying it is taken for; "" = asked back
	why   string // what is asked
	ex    []string

	wordPattern
}

// where says whether a direction comes with a rule.
type where int

const (
	noWhere  where = iota
	anyWhere       // with a direction or without
	needsOne       // with a direction; without one it is asked for
	onlyWith       // with a direction; without one it says something else
)

// stateRules are tried in this order.
var stateRules = compiledStates([]stateRule{
	// the hole in the laser's face
	{on: "f", needs: "home", mays: "see round all but as before stay bit bright even rays on dead in hole down vanished went fully perfectly spot move only dim faint not-now", at: anyWhere, as: "home"},
	{on: "f", needs: "hole down|through|vanished|into", mays: "see glow in down through vanished went rays bright even home move", at: anyWhere, as: "home"},
	{on: "f", needs: "hole in went|move", mays: "home", as: "home"},
	{on: "f", needs: "rays even", mays: "bright home all round hole in", as: "home"},
	{on: "f", needs: "in went|vanished|move", mays: "hole home", as: "home"},
	{on: "f", needs: "hole in|down|into went|move|slipped|jumped", mays: "just home straight bit back", as: "home"},
	{on: "f", needs: "hole dead", mays: "in down straight", as: "home"},
	{on: "f", needs: "hole hit|hits|covers|over|covering", mays: "on just", why: "down the hole, or on its edge?", ex: []string{"home", "in 4", "on 4"}},
	{on: "f", needs: "swallowed|swallows|gobbled|sank", mays: "hole in it", as: "home"},
	{on: "f", needs: "not glow", mays: "any home hole in round even all see sign there", at: anyWhere, why: "down the hole, or not to be seen?", ex: []string{"home", "cannot see"}},
	{on: "f", needs: "hole dark", mays: "in home glow", at: anyWhere, why: "down the hole, or not to be seen?", ex: []string{"home", "cannot see"}},
	{on: "f", needs: "glow even|round|all", mays: "home hole in down even round all rays edge", why: "home, and even all round?", ex: []string{"home even", "home"}},
	{on: "f", needs: "home glow", mays: "but on side in hole more", at: onlyWith, as: "home"},
	{on: "f", needs: "bright|glow", mays: "side edge on in home hole sign glow bright more went vanished", at: needsOne, why: "home, and brighter there?", ex: []string{"home 4", "home"}},
	{on: "f", needs: "see glow", mays: "sign", why: "down the hole?", ex: []string{"home", "cannot see"}},
	{on: "f", needs: "rays|even", mays: "just faint dim round hole in left see visible", why: "down the hole?", ex: []string{"home", "cannot see"}},

	// inside, on and outside of ring or hole
	{on: "fs", needs: "out|off face|card|plate", mays: "went edge side move", at: anyWhere, as: "not there"},
	{needs: "middle", mays: "in on dead very ring hole mirror", as: "middle"},
	{needs: "centre", mays: "dead in on very exact cue point perfect perfectly ring mirror hole spot exactly smack bang", as: "dead"},
	{needs: "dead|spot|smack|bob|bang on", mays: "hole ring it target centre middle", as: "dead"},
	{needs: "perfect|bang|dead", mays: "on in", as: "dead"},
	{on: "fp", needs: "half in|on|over", mays: "hole ring out edge", at: needsOne, as: "on"},
	{on: "fp", needs: "edge face|mirror|card", mays: "on very end", at: needsOne, as: "edge"},
	{on: "s", needs: "edge", mays: "on very end mouth secondary card tube", at: needsOne, as: "edge"},
	{on: "s", needs: "in hole", mays: "", why: "the hole in the laser's face?", ex: []string{"home", "not there"}},
	{on: "fp", needs: "on|touching ring|hole", mays: "edge just half in out middle very", at: needsOne, as: "on"},
	{on: "fp", needs: "edge ring|hole", mays: "on in just very", at: needsOne, as: "on"},
	{on: "fp", needs: "on|touching", mays: "just", at: needsOne, as: "on"},
	{on: "p", needs: "on edge", mays: "very", at: anyWhere, why: "of the ring, or of the mirror?", ex: []string{"on 4", "4 edge"}},
	{on: "f", needs: "on lip|rim", mays: "very just", at: onlyWith, as: "on"},
	{on: "f", needs: "on edge", mays: "very", at: anyWhere, why: "of the hole, or of the face?", ex: []string{"on 4", "4 edge"}},
	{on: "fp", needs: "in just|bit", mays: "ring hole", at: anyWhere, why: "inside, or on its edge?", ex: []string{"in 4", "on 4"}},
	{on: "fp", needs: "in", mays: "ring hole well safely now move vanished went near side within middle centre as before", at: onlyWith, as: "in"},
	{on: "fp", needs: "in", mays: "ring hole well safely now move vanished went near side within as before", as: "in"},
	{on: "p", needs: "off|out|past edge", mays: "mirror", at: needsOne, as: "wall"},
	{on: "fp", needs: "missed|missing ring|hole", mays: "just", at: needsOne, as: "out"},
	{on: "p", needs: "missed|missing mirror", mays: "side on", at: onlyWith, as: "wall"},
	{needs: "missed", mays: "all completely totally it laser mirror face card hole", as: "not there"},
	{needs: "missed|missing mirror|face|card", as: "not there"},
	{on: "p", needs: "on side", at: onlyWith, why: "on the tube's wall, or on the ring?", ex: []string{"wall 4", "on 4"}},
	{on: "p", needs: "off|out|past|beside mirror|glass", mays: "edge side went", at: needsOne, as: "wall"},
	{on: "p", needs: "wall|tube", mays: "hitting hit hits missed on off mirror side in beside of against", at: needsOne, as: "wall"},
	{on: "fp", needs: "out|off ring|hole", mays: "just move went", at: needsOne, as: "out"},
	{on: "fp", needs: "out just", mays: "", at: needsOne, as: "out"},
	{on: "fp", needs: "out", mays: "move went just came come slipped", at: needsOne, as: "out"},

	{needs: "laser|beam|battery dark", mays: "stay all completely", as: "dead laser"},
	{needs: "laser|cell|battery|batteries died|dead|flat|empty|failed|broken|finished|broke", mays: "went out off", as: "dead laser"},
	{needs: "laser|beam went out", mays: "off", as: "dead laser"},
	{needs: "laser off", mays: "", why: "dead, or switched off?", ex: []string{"dead laser", "weak laser"}},
	{on: "f", needs: "way in", mays: "went", why: "the spot in the hole, or a screw at its end?", ex: []string{"home", "end @"}},
	{needs: "laser dim|flickers|flickering|weak|fading|blinking|blinks|cutting|cuts", mays: "out went very", as: "weak laser"},
	{needs: "flickers|flickering|fading|blinking|blinks|cutting|cuts", mays: "bit out went very spot", as: "weak laser"},

	// a place, but not a point
	{needs: "smeared|smear|smudge|streak|blob|arc|spread|wide|fuzzy|patch", mays: "out from bit very line long fat big", at: anyWhere, why: "where is its brightest point?", ex: nil},
	{needs: "better|worse|move|jumped|further", mays: "bit much just went lot way closer now in out off of pulled hole ring", at: anyWhere, why: "where is it now?"},
	{needs: "half way there", mays: "just now", why: "where is it now?"},
	{needs: "past", mays: "went move hole ring middle bit just far too much", at: anyWhere, why: "where is it now?"},
	{on: "f", needs: "went off", mays: "face edge", at: onlyWith, why: "off the face, or where is it now?", ex: []string{"not there", "4 edge", "4:30 8"}},
	{needs: "see sign", mays: "bright dim small big", why: "where is it?"},
	{on: "fp", needs: "ring|hole", mays: "just bit on above below outer inner outermost first second third last", at: anyWhere, why: "how far from its middle?"},
	{needs: "mistake|wrong", mays: "that all", why: "what went wrong?", ex: []string{"undo", "other way", "not done"}},
	{needs: "came out|off", mays: "", why: "the spot out of the hole, or a screw?", ex: []string{"out at 4", "free @"}},
	{needs: "wait", mays: "on", why: "take your time: where is it?"},
	{needs: "too far", mays: "bit much just move went way", why: "where is it now?"},
	{needs: "overshot|overshoot", mays: "bit it far", why: "where is it now?"},

	// not there, not to be seen
	{needs: "cant sign", mays: "any on in face mirror card laser", as: "cant see"},
	{needs: "not|cant|hasnt|nothing see|findit|makeout", mays: "bright dark dim too laser much left from any sign spot out them apart where on in face card mirror much clearly there properly edge mouth secondary hole ring well know", as: "cant see"},
	{needs: "not|hasnt|nothing there|here|face|card|mirror|mouth|secondary|either|anywhere", mays: "on in sign any edge spot see even", as: "not there"},
	{on: "f", needs: "not|nothing return|reflection", mays: "any sign all", as: "not there"},
	{needs: "not red|light|dot", mays: "on in any here there", as: "cant see"},
	{needs: "not sign", mays: "laser any all second other come comes came back returns", as: "cant see"},
	{on: "fs", needs: "nothing on", mays: "any sign face card", as: "not there"},
	{needs: "empty|blank|bare", mays: "face card mirror all", as: "not there"},
	{needs: "dark", mays: "face mirror all completely", as: "cant see"},
	{needs: "nothing", mays: "sign any all", as: "cant see"},
	{on: "fs", needs: "off face|card|mouth|secondary|edge", mays: "vanished went edge move", at: anyWhere, as: "not there"},
	{on: "f", needs: "not laser", mays: "on see there", as: "not there"},
	{on: "f", needs: "not|nothing comes|come|coming|returns|returned", mays: "any", as: "not there"},
	{on: "f", needs: "where from", mays: "came come comes", why: "down the hole?", ex: []string{"home", "not there"}},
	{needs: "there|here|found", mays: "see yes", why: "where is it?"},
	{needs: "see", mays: "it yes", why: "where is it?"},
	{needs: "vanished|gone|missing", mays: "lost out from face", as: "gone"},
	{needs: "went", mays: "off out down up somewhere", why: "where is it now?"},
	{needs: "lost", mays: "sign spot", as: "gone"},
	{needs: "washed", mays: "out", as: "cant see"},
	{needs: "too bright|dim|dark|faint", mays: "way much far for see makeout make out", as: "cant see"},
	{needs: "invisible|sunny|sunlight", mays: "too very", as: "cant see"},
	{needs: "glare|dazzling|dazzles|blinded|dazzled", mays: "too much far in", as: "cant see"},
	{needs: "know", mays: "not cant where see", why: "can it be seen at all?", ex: []string{"cannot see", "not there"}},
	{needs: "sign two|more|loads|lots|many", mays: "see there on face mirror", as: "many"},
	{on: "s", needs: "see both|two", why: "where is the dimmer one?"},
	{on: "s", needs: "same place|spot", mays: "as other first one bright in", why: "is there one spot, or two that touch?", ex: []string{"not there", "4:30 3"}},
	{on: "s", needs: "nothing|not bright", mays: "but other second any one", as: "not there"},
	{on: "s", needs: "both|two together|touching|merged|same", mays: "on in place", why: "is there one spot, or two that touch?", ex: []string{"not there", "4:30 3"}},
	{on: "s", needs: "touch", mays: "they two both other", why: "is there one spot, or two that touch?", ex: []string{"not there", "4:30 3"}},
	{on: "s", needs: "together", mays: "on each other both two", why: "is there one spot, or two that touch?", ex: []string{"not there", "4:30 3"}},
	{needs: "two|loads|lots|split|doubled", mays: "see there them in", as: "many"},
	{needs: "bright dim", mays: "other two", as: "many"},

	// as it was, as it was told
	{needs: "stay", mays: "put there where same", as: "same"},
	{needs: "same", mays: "stay as before place spot last time position where", as: "same"},
	{needs: "not|hasnt|nothing move|different", mays: "much any from where place position spot", as: "same"},
	{needs: "still|exactly where|there", mays: "", as: "same"},
	{needs: "as|where before|was", mays: "just exactly", as: "same"},
	{needs: "cue", mays: "came come went move on in stands reached stopped said", as: "="},
	{needs: "place|point said", mays: "on in exactly same", as: "="},
	{needs: "as|where|like said", mays: "exactly just went move", as: "="},
})

func compiledStates(rules []stateRule) []stateRule {
	for i, r := range rules {
		rules[i].wordPattern = patternOf(r.needs, r.mays+" sign point returning")
	}
	return rules
}

// beforeAState are words that say that something was done, before what the spot
// does.
var beforeAState = lex.WordSet("done snug tight tightened eased loosened nipped turned ok okay yes yeah closer all every both stay stays stayed staying remains remained")

// stateWords understands what the spot does.
func stateWords(toks []lex.Token, c Context) (Said, bool, *lex.Error) {
	g := gistOf(toks, c)
	if len(g.all)+len(g.place) == 0 || g.names > 0 {
		return Said{}, false, nil
	}
	if i := slices.IndexFunc(toks, func(t lex.Token) bool { return senseWord(t) != 0 }); i < 0 || c.Told == nil || c.toldSense(toks, i, senseWord(toks[i])) {
		g.words = slices.DeleteFunc(g.words, func(t lex.Token) bool { return beforeAState[t.Raw] })
	}
	if said, ok, err := g.answer(); ok || err != nil {
		return said, ok, err
	}
	if said, ok := c.noAnd(toks); ok {
		return said, true, nil
	}
	b, directed, sure := g.direction()
	if directed && g.has("in") { // inside, a bit high
		g = g.withoutBitAfterIn()
	}
	if !sure {
		return Said{}, false, nil
	}
	if directed && b.bare && g.has("out|in") && slices.ContainsFunc(toks, func(t lex.Token) bool { return t.Is("by") }) {
		return Said{}, false, askBack(c.line, "is that o'clock, or how far?", "out "+hourText(b.unit.Hour()), c.examples()[0])
	}
	for _, r := range stateRules {
		if !c.onFace(r.on) || directed && r.at == noWhere || !directed && r.at == onlyWith || !g.matches(r.wordPattern) {
			continue
		}
		if r.as == "home" && c.saysFrom(toks) {
			return Said{}, false, askBack(c.line, "where is it now?", c.spotWays()...)
		}
		if r.as == "" {
			ex := b.here(g.named(r.ex, ""))
			if len(ex) == 0 {
				_, ex = c.ways(nil)
			}
			return Said{}, false, askBack(c.line, r.why, ex...)
		}
		if r.at == needsOne && !directed {
			_, err := whereTo(r.as)
			err.Asks = true
			return Said{}, false, err
		}
		if r.as == "not there" && c.otherFace(g) {
			return Said{}, false, askBack(c.line, "and here?", c.examples()...)
		}
		if r.as == "edge" {
			return said(edgePlace(*b, c))
		}
		said, err := c.saying(r.as, b)
		if err != nil {
			err.Asks = err.Asks || r.at != noWhere
		}
		return said, err == nil, err
	}
	return Said{}, false, nil
}

// withoutBitAfterIn leaves out how far inside a spot is that is a bit to a side there.
func (g gist) withoutBitAfterIn() gist {
	at := slices.IndexFunc(g.all, func(t lex.Token) bool { return lex.Classes[t.Raw] == "in" })
	bit := func(t lex.Token) bool { return lex.Classes[t.Raw] == "bit" }
	g.all = append(slices.Clone(g.all[:at]), slices.DeleteFunc(slices.Clone(g.all[at:]), bit)...)
	if !slices.ContainsFunc(g.all, bit) {
		g.words = slices.DeleteFunc(slices.Clone(g.words), bit)
	}
	return g
}

// here puts the hour of a line into examples that have one; nil leaves them.
func (b *bearing) here(examples []string) []string {
	if b == nil {
		return examples
	}
	for i, e := range examples {
		examples[i] = strings.TrimSuffix(strings.Replace(e, "4 edge", hourText(b.unit.Hour())+" edge", 1), " 4")
		if examples[i] != e && strings.HasSuffix(e, " 4") {
			examples[i] += " " + hourText(b.unit.Hour())
		}
	}
	return examples
}

// saysFrom reports whether a line says that the spot is away from where it names.
func (c Context) saysFrom(toks []lex.Token) bool {
	for i, t := range toks {
		if t.Is("from", "away", "short") || t.Is("of") && nextOf(toks, i).Is("home") {
			return true
		}
	}
	return false
}

// noAnd understands a "no" with the reason after it: "no, nothing there".
func (c Context) noAnd(toks []lex.Token) (Said, bool) {
	if len(toks) < 2 || !toks[0].Is("no", "nope", "nah") {
		return Said{}, false
	}
	said, err := parseStrictly(toks[1:], c)
	if err != nil {
		var ok bool
		if said, ok, err = stateWords(toks[1:], c); !ok || err != nil {
			return Said{}, false
		}
	}
	return said, said.Kind == SaidGone || said.Kind == SaidCantSee
}

// otherFace reports whether a line names another face than the one in question.
func (c Context) otherFace(g gist) bool {
	for _, t := range g.all {
		if f, ok := faceNames[t.Raw]; ok && f != c.Face {
			return true
		}
	}
	return false
}

// onFace reports whether a rule is of the face that is looked at.
func (c Context) onFace(on string) bool {
	if on == "" {
		return true
	}
	letter := byte('s')
	switch c.Face {
	case optics.FaceTarget:
		letter = 'f'
	case optics.FacePrimary:
		letter = 'p'
	}
	for i := range len(on) {
		if on[i] == letter {
			return true
		}
	}
	return false
}

// direction reads the direction of a line that has one and no distance. It is
// not sure where anything else is among its numbers.
func (g gist) direction() (b *bearing, is, sure bool) {
	p := &parser{c: g.c}
	for _, t := range g.place {
		if !t.Is("at", "toward", "towards") {
			p.toks = append(p.toks, t)
		}
	}
	if p.done() {
		return nil, false, true
	}
	d, ok, err := p.bearing()
	if !ok || err != nil || !p.done() {
		return nil, false, false
	}
	return &d, true, true
}

// saying returns what a saying means here.
func (c Context) saying(phrase string, b *bearing) (Said, *lex.Error) {
	for _, s := range sayings {
		if s.phrase == phrase || phrase == "cant see" && s.phrase == "cant see" {
			return s.mean(&parser{c: c, toks: []lex.Token{{Raw: phrase}}}, b)
		}
	}
	return Said{}, &lex.Error{Part: phrase, Why: notUnderstood}
}

// answer understands a yes, a no and a "done" where a place is asked for.
func (g gist) answer() (Said, bool, *lex.Error) {
	text := g.c.line
	if len(g.place) > 0 {
		return g.howMany()
	}
	switch {
	case g.onlyRaw("no nope nah n not") && g.c.Search:
		said, err := g.c.saying("not there", nil)
		return said, err == nil, err
	case g.onlyRaw("no nope nah n"):
		return Said{}, false, askBack(text, "not there, or not to be seen?", "not there", "cannot see")
	case g.onlyRaw("y yes yeah yep yup") && g.c.Search:
		return Said{}, false, askBack(text, "where is it then?", g.c.examples()...)
	case g.c.Search && g.onlyRaw("not on it that them") && g.has("not"):
		said, err := g.c.saying("not there", nil)
		return said, err == nil, err
	case g.onlyRaw("one just only single spot dot alone see") && g.c.Face == optics.FaceSecondary:
		said, err := g.c.saying("not there", nil)
		return said, err == nil, err
	}
	return Said{}, false, nil
}

// howMany understands a count where it is asked whether there are two spots.
func (g gist) howMany() (Said, bool, *lex.Error) {
	if g.c.Face != optics.FaceSecondary || !g.c.Search || len(g.place) != 1 || !g.onlyRaw("just only there see") && len(g.words) > 0 {
		return Said{}, false, nil
	}
	switch t := g.place[0]; {
	case t.Raw == "one":
		said, err := g.c.saying("not there", nil)
		return said, err == nil, err
	case t.Raw == "two":
		return Said{}, false, askBack(t.Raw, "where is the dimmer one?", g.c.examples()...)
	case t.Raw == "1", t.Raw == "2":
		return Said{}, false, askBack(t.Raw, "spots, or a clock position?", append([]string{"only one"}, g.c.examples()...)...)
	}
	return Said{}, false, nil
}

// onlyRaw reports whether every word of the line is one of a list, and there is
// one.
func (g gist) onlyRaw(list string) bool {
	set := lex.WordSet(list)
	n := 0
	for _, t := range g.all {
		if set[t.Raw] {
			n++
		} else if !lex.Fillers[t.Raw] {
			return false
		}
	}
	return n > 0
}
