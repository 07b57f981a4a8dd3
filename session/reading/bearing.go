package reading

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"spotward/optics"
	"spotward/session/lex"
	"spotward/session/words"
)

// Errors of a direction, 1σ in radians. This program's own: people are taken to be nine
// degrees out with a clock position, and words for an eighth of the dial are
// twice as wide.
const (
	sigmaClockRad = 9 * math.Pi / 180
	sigmaWordsRad = 20 * math.Pi / 180
)

// bearing is a direction in which a spot was seen.
type bearing struct {
	unit     optics.Dial // of length 1
	sigmaRad float64
	words    string
	bare     bool // figures alone: only their place in the line made them a clock
}

func clockBearing(hours float64, bare bool) bearing {
	d := optics.AtHour(hours, 1)
	return bearing{unit: d, sigmaRad: sigmaClockRad, words: clockWords(hours), bare: bare}
}

// clockFigures returns a clock position as it is typed, to the minute.
func clockFigures(hours float64) string {
	minutes := int(math.Round(60*hours)) % 720
	hour := minutes / 60
	if hour == 0 {
		hour = 12
	}
	return fmt.Sprintf("%d:%02d", hour, minutes%60)
}

// clockWords returns a clock position as it was told, to five minutes: a quarter
// in words, "a quarter past 4", all else in figures, "5:40".
func clockWords(hours float64) string {
	fives := int(math.Round(12*hours)) % 144
	switch q := fives / 3; {
	case fives%3 != 0:
		return clockFigures(float64(fives) / 12)
	case q%4 == 0:
		return words.QuarterWords(q) + " o'clock"
	default:
		return words.QuarterWords(q)
	}
}

// bearing reads a direction: a clock position, words such as "low right", or
// toward or away from something.
func (p *parser) bearing() (bearing, bool, *lex.Error) {
	from := p.at
	for _, read := range []func() (bearing, bool, *lex.Error){p.spokenClock, p.clock, p.octant, p.toward} {
		b, ok, err := read()
		if ok || err != nil {
			return b, ok, err
		}
		p.at = from
	}
	return bearing{}, false, nil
}

// spokenClock reads "half past 4", "quarter to 5". "half 4" is half past three
// in some tongues and is asked back.
func (p *parser) spokenClock() (bearing, bool, *lex.Error) {
	p.words("a")
	var part float64
	switch {
	case p.words("half"):
		part = 1. / 2
	case p.words("quarter"):
		part = 1. / 4
	default:
		return bearing{}, false, nil
	}
	hour := p.peek(1)
	past, to := p.peek(0).Is("past", "after"), p.peek(0).Is("to") && part == 1./4
	if !past && !to {
		hour = p.peek(0)
	}
	if hour.Shape != lex.ShapeWhole || hour.Sign != 0 || hour.Value < 1 || hour.Value > 12 {
		return bearing{}, false, nil
	}
	p.at++
	switch {
	case past:
		p.at++
	case to:
		p.at++
		part = -part
	case part == 1./2:
		return bearing{}, false, p.askHalf(int(hour.Value))
	default:
		return bearing{}, false, nil
	}
	p.oclock()
	return clockBearing(hour.Value+part, false), true, nil
}

func (p *parser) askHalf(hour int) *lex.Error {
	before := hour - 1
	if before == 0 {
		before = 12
	}
	p.oclock()
	distance := p.rest()
	if a, ok, err := p.amount(); !ok || err != nil || !p.done() || p.c.tooFar(a.mm) != nil {
		distance = "12"
	}
	say := func(h int) string { return strconv.Itoa(h) + ":30 " + distance }
	return &lex.Error{
		Asks:     true,
		Part:     "half " + strconv.Itoa(hour),
		Why:      "half past " + strconv.Itoa(before) + " or half past " + strconv.Itoa(hour) + "?",
		Examples: []string{say(before), say(hour)},
	}
}

// clock reads 4, 430, 4:30, 4.5, 4½, 4h30, 4.5h, each with or without
// "o'clock".
func (p *parser) clock() (bearing, bool, *lex.Error) {
	t := p.peek(0)
	if t.Shape == lex.ShapeWord || t.Shape == lex.ShapeFraction || t.Sign != 0 {
		return bearing{}, false, nil
	}
	hours, bare, ok := hoursOf(t)
	if !ok && t.Shape == lex.ShapeWhole && t.Value > 12 && t.Value < 24 && p.peek(1).Is("oclock", "o") {
		hours, ok = t.Value, true
	}
	if !ok {
		return bearing{}, false, nil
	}
	p.at++
	if p.words("h") {
		bare = false
		if m := p.peek(0); t.Shape == lex.ShapeWhole && m.Shape == lex.ShapeWhole && m.Sign == 0 && len(m.Raw) == 2 && !lex.IsUnit(p.peek(1)) {
			if m.Value > 59 {
				return bearing{}, false, m.Refuse("minutes go to 59")
			}
			hours += m.Value / 60
			p.at++
		}
	}
	if p.oclock() {
		bare = false
	}
	if hours >= 13 && hours < 24 && (t.Shape == lex.ShapeClock || !bare) {
		at := clockFigures(hours - 12)
		rest := p.rest()
		return bearing{}, false, askBack(t.Raw, at+" on a dial?", strings.TrimSpace(at+" "+rest))
	}
	if hours >= 13 {
		return bearing{}, false, t.Refuse("a clock position is an hour to 12")
	}
	b := clockBearing(hours, bare)
	b.sigmaRad = math.Hypot(b.sigmaRad, t.Spread/math.Sqrt(3)*math.Pi/6)
	return b, true, nil
}

// hoursOf returns a number as a clock position.
func hoursOf(t lex.Token) (hours float64, bare, ok bool) {
	switch t.Shape {
	case lex.ShapeWord:
		return 0, false, false
	case lex.ShapeClock:
		return t.Value, false, true
	case lex.ShapeMixed:
		return t.Value, true, t.Value >= 1
	case lex.ShapeDecimal:
		return decimalHours(t), true, t.Value >= 1 && t.Value < 13
	}
	if n := len(t.Raw); lex.IsDigit(rune(t.Raw[0])) && (n == 3 || n == 4) { // 430
		h, m := math.Floor(t.Value/100), math.Mod(t.Value, 100)
		return h + m/60, true, h < 13 && m < 60
	}
	return t.Value, true, t.Value >= 1 && t.Value <= 12
}

// decimalHours takes 4.30 for half past four: who means tenths writes 4.5.
func decimalHours(t lex.Token) float64 {
	h, frac := math.Floor(t.Value), t.Raw[strings.IndexAny(t.Raw, ".,")+1:]
	switch frac {
	case "15":
		return h + 0.25
	case "30":
		return h + 0.5
	case "45":
		return h + 0.75
	}
	return t.Value
}

func (p *parser) oclock() bool { return p.words("oclock") || p.words("o clock") }

// direction is a word for one of the four.
type direction struct {
	right, up float64
}

func directionOf(t lex.Token) (direction, bool) {
	switch {
	case t.Is("up", "high", "top", "upper", "above", "upwards", "upward"):
		return direction{up: 1}, true
	case t.Is("down", "low", "bottom", "lower", "below", "under", "beneath", "underneath", "downwards", "downward"):
		return direction{up: -1}, true
	case t.Is("right", "rightwards", "righthand"):
		return direction{right: 1}, true
	case t.Is("left", "leftwards", "lefthand"):
		return direction{right: -1}, true
	}
	return direction{}, false
}

func isDirection(t lex.Token) bool {
	_, ok := directionOf(t)
	return ok
}

// octant reads "right", "low right", "top left".
func (p *parser) octant() (bearing, bool, *lex.Error) {
	a, ok := directionOf(p.peek(0))
	if !ok {
		return bearing{}, false, nil
	}
	words := p.peek(0).Raw
	p.at++
	if b, ok := directionOf(p.peek(0)); ok {
		if (a.right == 0) == (b.right == 0) {
			return bearing{}, false, p.peek(0).Refuse("%s and %s are not at right angles", words, p.peek(0).Raw)
		}
		a.right, a.up = a.right+b.right, a.up+b.up
		words += " " + p.peek(0).Raw
		p.at++
	}
	n := math.Hypot(a.right, a.up)
	return wordsBearing(optics.Dial{Right: a.right / n, Up: a.up / n}, words), true, nil
}

func wordsBearing(unit optics.Dial, text string) bearing {
	return bearing{unit: unit, sigmaRad: sigmaWordsRad, words: text + " (" + words.HourWords(unit) + ")"}
}

// toward reads "toward the tube", "away from the focuser". No mirror can swap
// these, which left and right cannot say of themselves.
func (p *parser) toward() (bearing, bool, *lex.Error) {
	up, words := 0., ""
	switch {
	case p.words("toward"), p.words("towards"):
		up, words = 1, "toward the "
	case p.words("away"):
		up, words = -1, "away from the "
	default:
		return bearing{}, false, nil
	}
	if p.at == 2 && words[0] == 'a' && p.done() && p.toks[0].IsNumber() {
		return bearing{}, false, nil // 6 away: in which direction?
	}
	slanted := p.c.Tel.Station(p.c.Face) == optics.Behind
	noun := "focuser"
	if slanted {
		noun, up = "tube", -up // there up is away from the tube
	}
	if !p.words(noun) && (p.peek(0).Is("tube", "focuser") || words[0] == 't' || !slanted) {
		return bearing{}, false, p.peek(0).Refuse("here it is toward the %s or away from it", noun)
	}
	unit := p.c.Tel.ToDial(p.c.Face, optics.Seen{Up: up})
	return wordsBearing(unit, words+noun), true, nil
}
