package reading

import (
	"slices"
	"strings"

	"spotward/optics"
	"spotward/session/lex"
	"spotward/session/words"
)

// unknownWord is why a word is refused that has no meaning anywhere.
const unknownWord = "I don't know that word"

// refused says what in a line stopped it: a "not", a word that is not known, or
// what the strict reading of it stumbled over. It shows ways to say it: first the
// line without the strange word, where that is understood.
func (c Context) refused(toks []lex.Token, strict *lex.Error) *lex.Error {
	if slices.ContainsFunc(toks, isNegative) {
		return askBack(c.line, "what is it then?", c.ways(toks)...)
	}
	for _, t := range toks {
		if strict.Certain {
			break
		}
		if knownToken(t, c) {
			continue
		}
		err := &lex.Error{Part: t.Raw, Why: unknownWord}
		rest := slices.DeleteFunc(slices.Clone(toks), func(t lex.Token) bool { return !knownToken(t, c) })
		if said, err2 := c.quietly(rest); err2 == nil {
			err.Examples = append(err.Examples, c.retyped(said, rest))
		}
		err.Examples = append(err.Examples, c.ways(toks)...)
		return err
	}
	if strict.Why == unknownWord { // known, but to no purpose here
		strict.Part, strict.Why = c.line, "not understood"
	}
	if strict.Examples == nil || strict.Why == "not understood" {
		strict.Examples = c.ways(toks)
	}
	return strict
}

// wondering answers a line that ends in a question mark: a place may be unsure,
// what is a yes or no is asked back, and a question is answered.
func (c Context) wondering(line string, said Said, err *lex.Error) *lex.Error {
	switch {
	case err != nil && !strings.ContainsAny(line, "0123456789"):
		return &lex.Error{Asks: true, Advice: true, Part: line, Why: c.whichWords()}
	case err == nil && said.Kind != SaidPlace:
		return askBack(line, "is it so?", strings.TrimRight(line, "? "))
	case err != nil && !err.Asks:
		return &lex.Error{Asks: true, Advice: true, Part: line, Why: c.whichWords()}
	}
	return err
}

// quietly understands tokens without asking and without refusing aloud.
func (c Context) quietly(toks []lex.Token) (Said, *lex.Error) {
	said, err := parseStrictly(toks, c)
	if err == nil || err.Asks {
		return said, err
	}
	for _, try := range []func([]lex.Token, Context) (Said, bool, *lex.Error){looseTurn, screwWords, stateWords, loosePlace} {
		said, ok, err := try(toks, c)
		if err != nil || ok {
			return said, err
		}
	}
	return Said{}, err
}

// plainWord is what one types for what has no place, or needs none.
var plainWord = map[SaidKind]string{
	SaidInside: "in", SaidMiddle: "middle", SaidDead: "dead", SaidHome: "home", SaidGone: "not there", SaidCantSee: "cant see",
	SaidMany: "many", SaidSame: "same", SaidAsCued: "=", SaidLaserDead: "dead laser", SaidLaser: "weak laser",
}

// retyped is a line for what was understood of another one.
func (c Context) retyped(said Said, toks []lex.Token) string {
	name := said.Label
	if said.Lock {
		name = "lock " + name
	}
	switch said.Kind {
	case SaidPlace:
		if said.Face == c.Face {
			return words.ReadingText(said.At)
		}
	case SaidScrew:
		for _, t := range screwTalk {
			if t.is == said.Is {
				return strings.TrimSpace(t.phrase + " " + name)
			}
		}
	case SaidWrong:
		return "wrong " + name
	case SaidTurned:
		var turns []string
		for _, t := range said.Turned {
			turns = append(turns, turnText(t))
		}
		return strings.Join(turns, " ")
	}
	if word, ok := plainWord[said.Kind]; ok {
		return word
	}
	return c.line
}

// ways returns lines for what one evidently means: the kind of thing that the words
// of the line are about, of the screw that it names, at the hour that it names. Where
// it is about nothing, they are what is mostly said where the person is looking.
func (c Context) ways(toks []lex.Token) []string {
	g := gistOf(toks, c)
	ofScrew := len(c.cell().Labels) > 0 && (c.Told != nil || g.label != "")
	way := g.sense(toks)
	amount := slices.ContainsFunc(toks, func(t lex.Token) bool { return t.Shape == lex.ShapeFraction })
	placed, hour := g.named12()
	switch {
	case ofScrew && (amount && !placed || way != 0):
		return append(c.amountWays(g.label, way, "1/8"), "other way", "not done")
	case ofScrew && g.has("stuck|free|end|slipped|stripped|stiff|sticky|resistance|thread|key"):
		return append(c.troubleWays(g.label), "not done")
	case ofScrew && (g.label != "" || g.has("turn|screw|lock")):
		return append(c.screwWays(g.label), "free "+c.screwName(g.label), "not done")
	case placed && hour > 0:
		return append([]string{c.atHour(hour)}, c.saidAt(hourText(hour))...)
	case c.Face == optics.FaceTarget && g.has("glow|bright|even|rays|hole|round|home"):
		return []string{"home", "home 4", "home even", "on 4", "4:30 8"}
	}
	ways := slices.Clone(c.examples())
	if ofScrew {
		ways = append(ways, c.screwWays("")[0], "stuck "+c.screwName(""), "not done")
	}
	return ways
}

// named12 reports whether a line names a place, and the hour of it where it has one.
func (g gist) named12() (placed bool, hour float64) {
	for i, t := range g.place {
		if h, _, ok := hoursOf(t); ok && t.Sign == 0 && t.Shape != lex.ShapeFraction && !lex.IsUnit(lex.TokenAt(g.place, i+1)) && hour == 0 {
			hour = h
		}
		placed = placed || t.IsNumber() || isDirection(t)
	}
	return placed, hour
}

// hourText returns a clock position as one types it: 4, 4:30.
func hourText(hours float64) string { return strings.TrimSuffix(clockFigures(hours), ":00") }

// saidAt returns what else a spot may do at an hour where the person is looking.
func (c Context) saidAt(hour string) []string {
	switch c.Face {
	case optics.FacePrimary:
		return []string{"in " + hour, "on " + hour, "wall " + hour}
	case optics.FaceTarget:
		return []string{"on " + hour, "home " + hour, "not there"}
	}
	return []string{"not there"}
}

// examples returns lines that are understood where the person is looking.
func (c Context) examples() []string {
	switch c.Face {
	case optics.FacePrimary:
		if c.Tel.RingOuterMM > 0 {
			return []string{"4:30 2r", "in 4", "dead", "cant see"}
		}
		return []string{"4:30 20", "4 edge", "dead", "cant see"}
	case optics.FaceTarget:
		return []string{"4:30 8", "home", "not there", "cannot see"}
	case optics.FaceCard:
		return []string{"2 50", "not there"}
	}
	return []string{"4:30 12", "not there", "cannot see"}
}

// atHour returns a line for a spot at an hour where the person is looking.
func (c Context) atHour(hour float64) string {
	place := c.examples()[0]
	if hour > 12 {
		return place
	}
	return clockFigures(hour) + place[len("4:30"):]
}
