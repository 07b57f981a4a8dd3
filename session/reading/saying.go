package reading

import (
	"cmp"
	"math"
	"slices"

	"spotward/optics"
	"spotward/session/event"
	"spotward/session/lex"
	"spotward/session/words"
)

// saying is a word or two that stand for a whole reading.
type saying struct {
	phrase   string
	directed bool // a direction may come with it
	mean     meaning
}

// meaning is what a saying says; the bearing is nil when none came with it.
type meaning func(*parser, *bearing) (Said, *lex.Error)

// sayings are the words that are readings.
var sayings = slices.Concat(
	say(true, sayOn, "on", "on ring", "on rim"),
	say(true, sayOut, "out", "outside", "just outside", "just out"),
	say(true, sayIn, "in", "inside", "in ring", "inside ring", "in hole", "inside hole"),
	say(true, sayHome, "home", "home brighter"),
	say(true, sayWall, "wall", "on wall", "off", "off mirror"),
	say(false, sayMiddle, "middle", "in middle"),
	say(false, sayDead, "dead", "dead centre", "dead center", "centre", "center"),
	say(false, saySame, "same", "as before", "as last time"),
	say(false, sayCued, "=", "as cued"),
	say(false, sayGone, "gone"),
	say(false, plainly(SaidGone, "not on this face"), "not there", "nowhere", "none"),
	say(false, sayOffFace, "not on face", "off face"),
	say(false, plainly(SaidCantSee, "it cannot be seen"), "cant see", "cannot see", "cant tell", "cannot tell", "not seen", "unseen", "nothing", "no red", "no spot", "not visible", "too bright", "too dim"),
	say(false, plainly(SaidMany, "more than one spot: which?"), "many", "which one", "two spots"),
	say(false, plainly(SaidLaserDead, "the laser is dead"), "dead laser", "laser dead", "laser died", "no laser"),
	say(false, ofLaser(event.SaysWeak, "the laser is weak"), "weak laser", "laser weak", "dim laser", "laser dim", "flickers", "flickering", "laser flickers", "flickering laser"),
	say(false, ofLaser(event.SaysFresh, "the laser has a fresh cell"), "fresh cell", "new cell", "fresh battery", "new battery"),
)

// say is a saying in each of its phrases.
func say(directed bool, mean meaning, phrases ...string) []saying {
	all := make([]saying, len(phrases))
	for i, ph := range phrases {
		all[i] = saying{ph, directed, mean}
	}
	return all
}

// ofLaser makes a saying of the laser itself.
func ofLaser(is event.Says, echo string) meaning {
	return func(p *parser, _ *bearing) (Said, *lex.Error) {
		return Said{Kind: SaidLaser, Is: is, Face: p.c.Face, echo: echo}, nil
	}
}

// sayingForm reads a saying with its direction before or after it.
func sayingForm(p *parser) (Said, bool, *lex.Error) {
	all := sayings
	phrase := func(i int) string { return all[i].phrase }
	if i := p.longest(len(all), phrase); i >= 0 {
		if p.done() {
			return said(all[i].mean(p, nil))
		}
		at := p.words("at") || p.followedByNumber("toward") || p.followedByNumber("towards")
		n := p.peek(0)
		b, ok, err := p.bearing()
		if !ok || !p.done() || !all[i].directed {
			return Said{}, false, err
		}
		if b.bare && !at && all[i].phrase == "off" {
			return Said{}, false, p.askWhichNumber(n, all[i].phrase)
		}
		return said(all[i].mean(p, &b))
	}
	at := p.words("at")
	n := p.peek(0)
	b, ok, err := p.bearing()
	if err != nil || !ok {
		return Said{}, false, err
	}
	if i := p.longest(len(all), phrase); i >= 0 && p.done() && all[i].directed {
		if b.bare && !at {
			switch all[i].phrase {
			case "out", "outside", "off", "in":
				return Said{}, false, p.askWhichNumber(n, all[i].phrase)
			}
		}
		return said(all[i].mean(p, &b))
	}
	return Said{}, false, nil
}

// askWhichNumber asks whether a number beside "out", "off" or "in" is a clock
// position or a distance.
func (p *parser) askWhichNumber(n lex.Token, word string) *lex.Error {
	at := word + " at " + n.Raw
	if word == "off" && p.c.Face != optics.FacePrimary {
		at = "out at " + n.Raw
	}
	return &lex.Error{
		Asks: true, Part: p.restFrom(0), Why: n.Raw + " o'clock, or a distance?",
		Examples: []string{at, "4:30 " + n.Raw},
	}
}

// followedByNumber steps over a word when a number comes after it.
func (p *parser) followedByNumber(w string) bool {
	return p.peek(1).Shape != lex.ShapeWord && p.words(w)
}

// said makes what a form returns of what was meant.
func said(s Said, err *lex.Error) (Said, bool, *lex.Error) { return s, err == nil, err }

// whereTo asks for the direction that a saying is nothing without.
func whereTo(word string) (Said, *lex.Error) {
	return Said{}, &lex.Error{Part: word, Why: "in which direction?", Examples: []string{word + " 4", word + " low right"}}
}

// plainly makes a saying that has no place.
func plainly(k SaidKind, echo string) meaning {
	return func(p *parser, _ *bearing) (Said, *lex.Error) {
		return Said{Kind: k, Face: p.c.Face, echo: echo}, nil
	}
}

// circle is what "on", "in" and "out" are said of.
type circle struct {
	name             string
	innerMM, outerMM float64
}

// circle returns the ring on the primary or the hole in the target's face.
func (c Context) circle(part string) (circle, *lex.Error) {
	switch {
	case c.Face == optics.FacePrimary && c.Tel.RingInnerMM > 0:
		return circle{"ring", c.Tel.RingInnerMM, max(c.Tel.RingInnerMM, c.Tel.RingOuterMM)}, nil
	case c.Face == optics.FaceTarget && c.Tel.Target.HoleRadiusMM > 0:
		r := c.Tel.Target.HoleRadiusMM
		return circle{"hole", r, r}, nil
	}
	return circle{}, &lex.Error{Part: part, Why: "no ring or hole is noted there: a direction and mm"}
}

// This program's own: on the ring is seen as well as dead centre, just outside a
// little less, and what is somewhere inside is spread over it.

func sayOn(p *parser, b *bearing) (Said, *lex.Error) {
	r, err := p.c.circle("on")
	if err != nil {
		return Said{}, err
	}
	if b == nil {
		return whereTo("on")
	}
	s := p.c.at(SaidPlace, scaled(b.unit, (r.innerMM+r.outerMM)/2), sigmaDeadMM, b.sigmaRad)
	s.echo = "on the edge of the " + r.name + " at " + b.words
	return s, nil
}

func sayOut(p *parser, b *bearing) (Said, *lex.Error) {
	r, err := p.c.circle("out")
	if err != nil {
		return Said{}, err
	}
	if b == nil {
		return whereTo("out")
	}
	s := p.c.at(SaidPlace, scaled(b.unit, r.outerMM+sigmaOutMM), sigmaOutMM, b.sigmaRad)
	s.echo = "just outside the " + r.name + " at " + b.words
	return s, nil
}

func sayIn(p *parser, b *bearing) (Said, *lex.Error) {
	r, err := p.c.circle("in")
	if err != nil {
		return Said{}, err
	}
	if b == nil {
		s := p.c.around(SaidInside, optics.Dial{}, r.innerMM/2)
		s.echo = "somewhere inside the " + r.name
		return s, nil
	}
	s := p.c.around(SaidPlace, scaled(b.unit, r.innerMM/2), r.innerMM/3)
	s.echo = "inside the " + r.name + ", toward " + b.words
	return s, nil
}

func sayMiddle(p *parser, _ *bearing) (Said, *lex.Error) {
	g := p.c.Goal
	if g.InsideMM <= 0 {
		return Said{}, &lex.Error{Part: "middle", Why: "do you mean dead centre?", Asks: true, Examples: []string{"dead"}}
	}
	s := p.c.around(SaidMiddle, p.c.Tel.TubeToDial(p.c.Face, g.At), g.InsideMM/2)
	s.echo = "within " + words.MmText(g.InsideMM) + " mm of where it is wanted"
	return s, nil
}

func sayDead(p *parser, _ *bearing) (Said, *lex.Error) {
	s := p.c.around(SaidDead, optics.Dial{}, sigmaDeadMM)
	s.echo = "dead centre"
	return s, nil
}

// sayHome places a spot that is brighter on one side of the hole halfway to
// its rim there.
func sayHome(p *parser, b *bearing) (Said, *lex.Error) {
	if p.c.Face == optics.FacePrimary || p.c.Face == optics.FaceCard {
		return Said{}, &lex.Error{Part: "home", Why: "that is the hole in the laser's face; here it is dead or in"}
	}
	c := p.c
	c.Face = optics.FaceTarget
	if b == nil {
		s := c.around(SaidHome, optics.Dial{}, SigmaHomeMM)
		s.echo = "home: seen going down the hole"
		return s, nil
	}
	s := c.around(SaidHome, scaled(b.unit, c.Tel.Target.HoleRadiusMM/2), SigmaHomeMM)
	s.echo = "home, brighter at " + b.words
	return s, nil
}

// sayWall places a spot that is beside the mirror on the tube's wall.
func sayWall(p *parser, b *bearing) (Said, *lex.Error) {
	if p.c.Face != optics.FacePrimary {
		return Said{}, &lex.Error{Part: "wall", Why: "the wall is beside the primary; what is not on this face is gone", Examples: []string{"gone", "card 2 50"}}
	}
	if b == nil {
		return whereTo("wall")
	}
	edge := p.c.rimMM()
	s := p.c.around(SaidOffMirror, scaled(b.unit, max(1.1*edge, p.c.Tel.InnerRadiusMM)), edge/2)
	s.echo = "beside the mirror, on the wall at " + b.words
	return s, nil
}

func saySame(p *parser, _ *bearing) (Said, *lex.Error) {
	last := p.c.Last
	if last == nil {
		return Said{}, &lex.Error{Part: "same", Why: "as what? there is no reading here yet: where is it?"}
	}
	d := p.c.Tel.TubeToDial(p.c.Face, last.At)
	s := Said{Kind: SaidSame, Face: p.c.Face, At: d, Belief: *last}
	s.echo = "as last time: " + words.PlaceText(p.c.Face, d, words.MmText(d.Len()))
	return s, nil
}

// sigmaBearingFrac is how little a cue that is a bearing says of the distance
// at which the spot crossed it (1σ, a part). This program's own.
const sigmaBearingFrac = 0.35

func sayCued(p *parser, _ *bearing) (Said, *lex.Error) {
	stop := p.c.cue()
	if stop == nil {
		return Said{}, &lex.Error{Part: cmp.Or(p.c.line, p.toks[0].Raw), Why: "no place to stop at was told"}
	}
	d := p.c.Tel.ToDial(p.c.Face, optics.Seen{Right: stop.Right, Up: stop.Up})
	frac := sigmaMMFrac
	if stop.As == optics.StopBearing {
		frac = sigmaBearingFrac
	}
	s := p.c.at(SaidAsCued, d, withEyes(frac*math.Abs(d.Len())), sigmaClockRad)
	s.echo = "as cued: " + words.PlaceText(p.c.Face, d, words.MmText(d.Len()))
	return s, nil
}

// AsCued returns the reading that stands where the last of the told moves was to
// stop.
func AsCued(c Context) (Said, error) {
	said, err := sayCued(&parser{c: c, toks: []lex.Token{{Raw: "="}}}, nil)
	if err != nil {
		return Said{}, err
	}
	return said, nil
}

// cue returns where the last of the told moves was to stop, when that is on
// the face in question.
func (c Context) cue() *event.ToldStop {
	if stop := c.stopOf(c.Told); stop != nil {
		return stop
	}
	return c.stopOf(c.Turned)
}

func (c Context) stopOf(told *event.Told) *event.ToldStop {
	if told == nil || len(told.Moves) == 0 {
		return nil
	}
	last := told.Moves[len(told.Moves)-1]
	if last.Mirror.SpotFace() != c.Face {
		return nil
	}
	return last.Stop
}
