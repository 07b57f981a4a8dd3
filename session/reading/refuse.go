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

// notUnderstood is why a line is refused of which every word is known.
const notUnderstood = "not understood"

// refused says what in a line stopped it: a "not", a word that is not known, or
// what the strict reading of it stumbled over. It asks again what is to be known, and
// shows ways to say it: first the line without the strange word, where that is
// understood.
func (c Context) refused(toks []lex.Token, strict *lex.Error) *lex.Error {
	again, ways := c.ways(toks)
	if slices.ContainsFunc(toks, lex.Negative) {
		return askBack(c.line, "what is it then?", ways...)
	}
	for i, t := range toks {
		if strict.Certain {
			break
		}
		if knownToken(t, c) {
			continue
		}
		err := &lex.Error{Part: t.Raw, Why: unknownWord + ". " + capital(again), Examples: ways}
		if before := lex.TokenAt(toks, i-1); before.IsNumber() && before.Shape != lex.ShapeClock && !before.Part { // a strange unit
			err.Why = "how many mm is that?"
			return err
		}
		rest := slices.DeleteFunc(slices.Clone(toks), func(t lex.Token) bool { return !knownToken(t, c) })
		if said, err2 := c.quietly(rest); err2 == nil {
			err.Examples = append([]string{c.retyped(said, rest)}, ways...)
		}
		return err
	}
	if strict.Why == unknownWord || strict.Why == notUnderstood || strict.Why == notDistance { // known, but to no purpose here
		strict.Part, strict.Why, strict.Examples = c.line, again, nil
	}
	if strict.Examples == nil {
		strict.Examples = ways
	}
	return strict
}

func capital(s string) string { return strings.ToUpper(s[:1]) + s[1:] }

// notDistance is why a line is refused that has a direction and no distance behind it.
const notDistance = "not a distance"

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

// What is asked again where a line was not understood.
const (
	askWhere  = "where is the spot?"
	askFar    = "and how far from the middle?"
	askTurned = "what was done with the screw?"
	askScrew  = "what does the screw do?"
)

// ways returns what to ask of a line, and lines for what it evidently means: the kind
// of thing that its words are about, of the screw that it names, at the hour that it
// names. Where it is about nothing, they are what is said where the person is
// looking, the likeliest first.
func (c Context) ways(toks []lex.Token) (again string, ways []string) {
	g := gistOf(toks, c)
	ofScrew := len(c.cell().Labels) > 0 && (c.Told != nil || g.label != "")
	way := g.sense(toks)
	amount := slices.ContainsFunc(toks, func(t lex.Token) bool {
		_, part := lex.PartWord(t)
		return t.Shape == lex.ShapeFraction || part
	})
	placed, hour, mm := g.named12()
	name := c.screwName(g.label)
	switch {
	case ofScrew && (amount && !placed || way != 0):
		return askTurned, append(c.amountWays(g.label, way, "1/8"), "other way", c.wrongWay(g.label), "stuck "+name, "not done")
	case ofScrew && g.has("stuck|free|end|slipped|stripped|stiff|sticky|resistance|thread|key|head"):
		return askScrew, append(c.troubleWays(g.label), "stripped "+name, "sticky "+name, "not done")
	case ofScrew && (g.label != "" || g.has("turn|screw|lock")):
		return askTurned, append(c.screwWays(g.label), c.wrongWay(g.label), "free "+name, "end "+name, "slipped "+name, "not done")
	case hour > 0:
		again = askWhere
		if !mm {
			again = askFar
		}
		return again, append([]string{c.placeAt(hour, g)}, c.saidAt(hourText(hour))...)
	case placed && mm:
		return "in which direction?", c.spotWays()
	case placed:
		return askFar, c.spotWays()
	case c.Face == optics.FaceTarget && g.has("glow|bright|even|rays|hole|round|home"):
		return askWhere, []string{"home", "home 4", "home even", "in 4", "on 4", "out 4", "4:30 8", "not there"}
	}
	ways = c.spotWays()
	if ofScrew {
		ways = append(ways, c.toldText(), "other way", c.wrongWay(""), "stuck "+name, "free "+name, "not done")
	}
	return askWhere, ways
}

// toldText is what was told, as one types it.
func (c Context) toldText() string {
	if c.Told == nil || len(c.Told.Moves) == 0 {
		return c.screwName("") + " +1/8"
	}
	return c.toldWays()[0]
}

// wrongWay is how one says that a screw was turned that was not told.
func (c Context) wrongWay(label string) string {
	for _, l := range c.cell().Labels {
		if c.Told != nil && !c.toldTo(l) && (label == "" || c.toldTo(label) || l == label) {
			return "wrong " + l
		}
	}
	return "other way"
}

func (c Context) toldTo(label string) bool { return gist{c: c}.toldIs(label) }

// placeAt is a line for a spot at an hour, as far out as the line says.
func (c Context) placeAt(hour float64, g gist) string {
	if said, err := c.quietly(g.place); err == nil && said.Kind == SaidPlace && said.Face == c.Face {
		return words.ReadingText(said.At)
	}
	return c.atHour(hour)
}

// named12 reports whether a line names a place, the hour of it where it has one, and
// whether a distance is beside it.
func (g gist) named12() (placed bool, hour float64, far bool) {
	for i, t := range g.place {
		unit := lex.IsUnit(lex.TokenAt(g.place, i+1))
		switch h, _, ok := hoursOf(t); {
		case ok && t.Sign == 0 && t.Shape != lex.ShapeFraction && !unit && hour == 0:
			hour = h
		case t.IsNumber():
			far = true
		}
		placed = placed || t.IsNumber() || isDirection(t)
	}
	if hour == 0 { // left, low right
		if b, ok, _ := g.direction(); ok {
			hour = b.unit.Hour()
			if hour == 0 {
				hour = 12
			}
		}
	}
	return placed, hour, far
}

// hourText returns a clock position as one types it: 4, 4:30.
func hourText(hours float64) string { return strings.TrimSuffix(clockFigures(hours), ":00") }

// saidAt returns what else a spot may do at an hour where the person is looking.
func (c Context) saidAt(hour string) []string {
	switch c.Face {
	case optics.FacePrimary:
		return c.withWent(hour, "in "+hour, "on "+hour, "out "+hour, "wall "+hour)
	case optics.FaceTarget:
		return c.withWent(hour, "in "+hour, "on "+hour, "out "+hour, "home "+hour, "not there")
	}
	return []string{"not there", "cannot see"}
}

// withWent adds the way that a spot set off, where a screw was told.
func (c Context) withWent(hour string, ways ...string) []string {
	if c.Told == nil || len(c.Told.Moves) == 0 {
		return ways
	}
	return append(ways, "went "+hour)
}

// spotWays returns what may be said of the spot where the person is looking.
func (c Context) spotWays() []string {
	ways := slices.Clone(c.examples())
	switch c.Face {
	case optics.FacePrimary:
		ways = append(ways, "on 4", "out 4", "wall 4", "not there")
	case optics.FaceTarget:
		ways = append(ways, "in 4", "on 4")
	}
	return append(ways, "same", "=")
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
