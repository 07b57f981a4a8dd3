package reading

import (
	"fmt"
	"math"
	"slices"

	"spotward/optics"
	"spotward/session/lex"
	"spotward/session/words"
)

// amount is a distance as typed.
type amount struct {
	mm       float64
	frac     float64 // 1σ as a part of mm
	words    string  // as said back, without mm
	printed  bool    // mm as printed on the target's face, not yet across the beam
	marked   bool    // with its unit: it cannot be taken for a clock
	count    float64 // of units, as typed
	unit     string  // "", "mm", "cm", `"` or "r"
	sureUnit bool    // the unit was typed: no decimal point was lost
}

// amount reads a distance: 12, 12 mm, 0.5", 2r, edge, 1/2 of the way to it.
func (p *parser) amount() (amount, bool, *lex.Error) {
	if t := p.peek(0); t.Sign != 0 {
		return amount{}, false, t.Refuse("a distance has no sign; in a pair both have one, right and up")
	}
	return p.length()
}

// length reads a distance whatever its sign.
func (p *parser) length() (a amount, ok bool, err *lex.Error) {
	if p.words("edge") || p.words("rim") || p.words("at edge") || p.words("at rim") {
		return p.partOfRim(1, "at the edge")
	}
	t := p.peek(0)
	if t.Shape == lex.ShapeWord || t.Shape == lex.ShapeClock {
		return amount{}, false, nil
	}
	p.at++
	v := math.Abs(t.Value)
	defer func() {
		if ok {
			a.count = v
		}
		if v > 0 && err == nil {
			a.frac = math.Hypot(a.frac, t.Spread/math.Sqrt(3)/v)
		}
	}()
	if next := p.peek(0); t.Shape == lex.ShapeWhole && next.Shape == lex.ShapeFraction && next.Sign == 0 {
		v += next.Value
		t.Shape = lex.ShapeMixed
		p.at++
	}
	switch {
	case p.words("mm"):
		return amount{mm: v, frac: sigmaMMFrac, marked: true, unit: " mm", sureUnit: true}, true, nil
	case p.words("cm"):
		return amount{mm: 10 * v, frac: sigmaMMFrac, marked: true, unit: " cm"}, true, nil
	case p.words(`"`):
		return amount{mm: words.MmPerInch * v, frac: sigmaMMFrac, marked: true, unit: `"`}, true, nil
	case p.peek(0).Is("in", "inch", "inches", "m", "ft"):
		return amount{}, false, p.peek(0).Refuse(`mm are wanted; inches are written as 0.5"`)
	case p.ringUnit():
		return p.rings(t, v)
	case t.Shape == lex.ShapeFraction:
		return p.partOfRim(v, t.Raw+" of the way to the edge")
	}
	return amount{mm: v, frac: sigmaMMFrac}, true, nil
}

func (p *parser) ringUnit() bool {
	p.words("printed")
	if !p.words("r") && !p.words("ring") && !p.words("rings") {
		return p.words("rw") || p.words("ringwidths")
	}
	_ = p.words("width") || p.words("widths")
	return true
}

// rings turns a number of rings into mm: whole ring widths on the primary,
// printed rings counted outward from the hole on the target's face.
func (p *parser) rings(t lex.Token, n float64) (amount, bool, *lex.Error) {
	a := amount{frac: sigmaRingsFrac, marked: true, unit: "r"}
	tel := p.c.Tel
	switch {
	case p.c.Face == optics.FacePrimary && tel.RingOuterMM > 0:
		a.mm, a.words = n*RingWidthMM(tel), countWords(n, "ring width")
	case p.c.Face == optics.FaceTarget && tel.Target.RingStepMM > 0:
		a.mm, a.words, a.printed = PrintedRingMM(tel.Target, n), countWords(n, "printed ring"), true
	default:
		return a, false, t.Refuse("no ring is noted there: a distance in mm")
	}
	return a, true, nil
}

// RingWidthMM returns the ruler that ring widths are told by: the whole centre
// ring from edge to edge, mm.
func RingWidthMM(t optics.Telescope) float64 { return 2 * t.RingOuterMM }

// PrintedRingMM returns the radius, mm as printed, of ring n of the target's
// face, counted outward from the hole's rim.
func PrintedRingMM(t optics.Target, n float64) float64 { return t.HoleRadiusMM + n*t.RingStepMM }

func countWords(n float64, what string) string {
	if n != 1 {
		what += "s"
	}
	return fmt.Sprintf("%g %s", math.Round(100*n)/100, what)
}

func (p *parser) partOfRim(part float64, words string) (amount, bool, *lex.Error) {
	r := p.c.rimMM()
	if r <= 0 {
		return amount{}, false, &lex.Error{Why: "how far it is to the edge there is not known: a distance in mm"}
	}
	return amount{mm: part * r, frac: sigmaRimFrac, words: words, marked: true}, true, nil
}

// rimMM returns the radius of what is looked at, or 0 when it is not known.
func (c Context) rimMM() float64 {
	switch c.Face {
	case optics.FacePrimary:
		return c.Tel.ApertureMM / 2
	case optics.FaceSecondary:
		return c.Tel.MinorAxisMM / 2
	case optics.FaceTarget:
		return c.Tel.Target.FaceRadiusMM
	case optics.FaceCard:
		return c.Tel.InnerRadiusMM
	}
	return 0
}

// ParseWidth understands a distance alone, such as how wide a circle the spot
// made: "2 rings", "5 mm". It returns mm across the beam, or an *Error.
func ParseWidth(text string, c Context) (float64, error) {
	mm, err := parseWidth(text, c)
	if err == nil {
		return mm, nil
	}
	err.Examples = []string{"8 mm", "12 mm"}
	if c.Tel.RingOuterMM > 0 {
		err.Examples = []string{"2r", "12 mm"}
	}
	return 0, err
}

// HasUnit reports whether a line says in what a distance is counted.
func HasUnit(line string) bool {
	toks, err := lex.Scan(line)
	return err == nil && slices.ContainsFunc(lex.Tidy(toks, false), lex.IsUnit)
}

func parseWidth(text string, c Context) (float64, *lex.Error) {
	line, err := typed(text)
	if err != nil {
		return 0, err
	}
	toks, err := lex.Scan(line)
	if err != nil {
		return 0, err
	}
	p, err := newParser(toks, c)
	if err != nil {
		return 0, err
	}
	a, ok, err := p.amount()
	if ok && err == nil && p.done() {
		return a.mm, c.tooFar(a.mm)
	}
	loose := &parser{toks: looseAmount(toks), c: c}
	if a, ok, err := loose.amount(); ok && err == nil && loose.done() {
		return a.mm, c.tooFar(a.mm)
	}
	if err == nil {
		err = p.lost()
	}
	return 0, err
}
